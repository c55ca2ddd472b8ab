"""Stock kept up on the phone, part by part: the same as the whole fold of all that ever happened."""

import json
import uuid
from random import Random

import pytest

from backend.core.catalogue import answer
from tests.core.counting.random_facts import PLACES, history

pytestmark = pytest.mark.full

SEED = 4
FIRST_MS = 1_760_000_000_000
DAY_MS = 86_400_000

# a new phone each time; after each batch, or page of the log, what it tells
KEEP_UP = """async ({ batches, paired }) => {
  const { keepExchange, keepPairing } = await import('/data/store/exchanged.js');
  const { keepChanges } = await import('/data/store/own-changes.js');
  const { remember } = await import('/data/store/remembered.js');
  const { deviceId } = await import('/data/clock.js');
  const { stock } = await import('/data/stock.js');
  await remember('stopped', 'no exchange');
  let stood = paired ? { epoch: 'one', cursor: 0, role: 'owner' } : null;
  await keepPairing(deviceId(), null, []);
  if (paired) await keepPairing(deviceId(), stood, []);
  const told = [];
  let seq = 0;
  for (const facts of batches) {
    const changes = facts.map(({ kind, id, at, ...fields }) => ({ kind, id, at, fields }));
    if (paired) {
      const from = seq;
      changes.forEach((change) => { seq += 1; change.seq = seq; });
      const sync = { ...stood, cursor: seq };
      await keepExchange(stood, { sync, page: { from, changes } });
      stood = sync;
    } else await keepChanges(changes, { ms: 0, counter: 0 });
    told.push(await stock());
  }
  return told;
}"""


def named(facts, number):
    """Give a history's places, products, sales and sessions ids, and its moments days."""

    def id(name):
        return str(uuid.uuid5(uuid.NAMESPACE_OID, f"{number} {name}"))

    def part(value, name=None):
        if isinstance(value, dict):
            return {key: part(inner, key) for key, inner in value.items()}
        if isinstance(value, list):
            return [part(inner) for inner in value]
        if name == "at":
            return FIRST_MS + value * DAY_MS * 9
        known = ("id", "place", "from", "to", "product", "size", "sale", "session")
        return id(value) if name in known else value

    return part(facts)


def batches_of(facts, random):
    """Cut facts into a few batches; a phone's own are made in the order of their times."""
    batches = []
    while facts:
        size = random.randint(1, 6)
        batches.append(facts[:size])
        facts = facts[size:]
    return batches


def there(rows):
    """Tell what lies where; what is none is none, whether it is told or not."""
    return {(row["place"], row["product"], row["size"]): row["quantity"] for row in rows if row["quantity"]}


def test_what_arrives_in_any_order_is_folded_as_all_at_once(screen, how_many):
    screen.start_at("/settings")
    random = Random(SEED)
    for number in range(how_many(60, 1000)):
        facts = named(history(random), number)
        batches = batches_of(facts, random)
        agrees(screen, batches, paired=True)


def test_a_place_with_much_of_before_is_folded_again_by_itself(screen, how_many):
    screen.start_at("/settings")
    random = Random(SEED + 4)
    for number in range(how_many(30, 500)):
        first, *batches = batches_of(named(history(random), number), random) or [[]]
        agrees(screen, [of_old(number) + first, *batches], paired=True)


def test_a_void_that_comes_before_all_else_is_not_forgotten(screen):
    screen.start_at("/settings")
    place, product, sale, void = (str(uuid.UUID(int=number)) for number in range(1, 5))
    sold = {"kind": "sale", "id": sale, "place": place, "lines": [{"product": product, "quantity": 1}]}
    never = {"kind": "void", "id": void, "at": FIRST_MS + 1, "sale": sale}
    agrees(screen, [[never], [{**sold, "at": FIRST_MS}]], paired=True)


def test_what_a_phone_makes_itself_is_folded_as_all_at_once(screen, how_many):
    screen.start_at("/settings")
    random = Random(SEED + 1)
    for number in range(how_many(60, 1000)):
        facts = sorted(named(history(random), number), key=lambda fact: (fact["at"], fact["id"]))
        agrees(screen, batches_of(facts, random), paired=False)


def agrees(screen, batches, paired):
    told = screen.page.evaluate(KEEP_UP, {"batches": batches, "paired": paired})
    known = []
    for batch, rows in zip(batches, told, strict=True):
        known += batch
        whole = answer("stock-on-hand", {"facts": known})["result"]["on_hand"]
        assert there(rows) == there(whole), known


def of_old(number):
    """Make so much at the places of a history that each is folded again by itself, all of it before."""
    found = {"kind": "set-aside", "at": -9, "product": "E", "quantity": 1, "reason": "found"}
    return named(
        [{**found, "id": f"{place} {count}", "place": place} for place in PLACES for count in range(101)],
        number,
    )


@pytest.mark.parametrize("old", [lambda number: [], of_old], ids=["few", "many"])
def test_what_an_owner_left_out_counts_nowhere(screen, how_many, old):
    screen.start_at("/settings")
    random = Random(SEED + 2)
    for number in range(how_many(40, 500)):
        facts = named(history(random), number)
        for fact in random.sample(facts, min(len(facts), random.randint(1, 2))):
            out = {"kind": "left-out", "id": str(uuid.uuid5(uuid.NAMESPACE_OID, "left out " + fact["id"]))}
            facts.append({**out, "at": FIRST_MS, "fact": fact["id"]})
        # the latest batch brings what is left out, so that all is folded anew
        agrees(screen, [old(number) + facts[:-1], facts[-1:]], paired=True)


# how much the page asks the core, as text, while it does something
ASKED = """async (given) => {
  const asked = [];
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (sent, ...more) {
    if (sent.text) asked.push(sent.text.length);
    return post.call(this, sent, ...more);
  };
  const told = await (KEEP_UP)(given);
  Worker.prototype.postMessage = post;
  return { told: told.at(-1), questions: asked.length, characters: asked.reduce((sum, one) => sum + one, 0) };
}""".replace("KEEP_UP", KEEP_UP)


def to_anywhere(random, count):
    """Move goods between places that nobody described, and count at some, as a helper's phone may."""
    day = {"at": FIRST_MS, "day": "2026-05-02"}
    new = lambda: str(uuid.UUID(int=random.getrandbits(128)))  # noqa: E731
    facts, product = [], new()
    for number in range(count):
        goods = {"product": product, "quantity": 1}
        facts.append({"kind": "move", "id": new(), **day, "from": new(), "to": new(), **goods})
        if number % 5 == 0:
            facts.append({
                "kind": "count-close", "id": new(), **day, "session": new(), "place": new(), "scope": "all"
            })  # fmt: skip
    return facts


def test_places_that_nobody_described_are_folded_together(screen):
    screen.start_at("/settings")
    facts = to_anywhere(Random(SEED + 3), 2000)
    told = screen.page.evaluate(ASKED, {"batches": [facts], "paired": True})
    whole = answer("stock-on-hand", {"facts": facts})["result"]["on_hand"]
    assert there(told["told"]) == there(whole)
    # all voids, each fact once or twice as it is of two places, a thousand at a time, and the list
    assert told["questions"] < 12
    assert told["characters"] < 4 * len(json.dumps(facts))


def test_what_was_kept_of_own_facts_holds_at_the_next_start(phone):
    place, product = (str(uuid.UUID(int=number)) for number in (1, 2))
    goods = {"place": place, "product": product, "quantity": 1, "reason": "found"}
    made = [
        {"kind": "set-aside", "id": str(uuid.UUID(int=9 + number)), "at": FIRST_MS + number, **goods}
        for number in range(120)
    ]
    phone.screen.start_at("/settings")
    phone.screen.page.evaluate(KEEP_UP, {"batches": [made[:70], made[70:]], "paired": False})
    phone.screen.settle()
    # folded anew from the outbox, and kept; then begun from what was kept
    for _ in range(2):
        phone.screen.reload()
        rows = phone.screen.page.evaluate("import('/data/stock.js').then(({ stock }) => stock())")
        assert [row["quantity"] for row in rows] == [120]
        phone.screen.settle()
    kept = phone.screen.page.evaluate(
        "import('/data/store/remembered.js').then(({ recall }) => recall('own-stock'))"
    )
    assert kept["count"] == 120
