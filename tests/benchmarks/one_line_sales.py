"""Sales of one line each, as a busy stall makes them."""

import random

from backend.core.records.checking import check

MANY = 10_000
FIRST_MS = 1_740_823_200_000
PLACE = "0192f8a0-0000-7000-8000-00000000000a"
BOX = "0192f8a0-0000-7000-8000-00000000000b"
PRICES = (450, 600, 750, 950)
PAYMENTS = ("cash", "cash", "cash", "card")
DAY_MS = 86_400_000


def one_line_sales(many=MANY, seed=1, products=None, place=PLACE):
    """Make sales: [{"at", "fields"}], 200 a day over many Saturdays, seconds to minutes apart.

    Takes: products, [(id, price)], 40 invented ones where none are given.
    """
    chance = random.Random(seed)
    products = products or [_product(chance) for _ in range(40)]
    sales, at = [], FIRST_MS
    for number in range(many):
        day, of_day = divmod(number, 200)
        if not of_day:
            at = FIRST_MS + day * 7 * DAY_MS
        at += chance.randrange(5_000, 200_000)
        sales.append({"at": at, "fields": _sale(chance, chance.choice(products), day, place)})
    return sales


def _product(chance):
    number = f"{chance.getrandbits(74):019x}"
    return f"01953a00-{number[:4]}-7{number[4:7]}-8{number[7:10]}-{number[-12:]}", chance.choice(PRICES)


def _sale(chance, product, day, place):
    id, price = product
    quantity = chance.choice((1, 1, 1, 2))
    line = {"product": id, "quantity": quantity, "unit_price": price, "total": price * quantity}
    sale = {
        "day": f"{2025 + day // 48}-{day % 48 // 4 + 1:02}-{day % 4 * 7 + 1:02}",
        "booking": f"0192f8a0-0000-7000-8000-{day:012x}",
        "place": place,
        "box": BOX,
        "lines": [line],
        "amount": price * quantity,
        "payment": chance.choice(PAYMENTS),
    }
    # all its fields, as the phone keeps what it has checked
    return check("sale", sale, True)
