"""Money taken, by day and kind of payment."""

from sqlalchemy import func, select

from .models.selling import Refund, Sale, Void


def by_day(connection, business):
    """Add up sales that were not voided, and refunds.

    Returns: rows (day, payment, sales, taken, refunds, given_back), by day and payment.
    """
    voided = select(Void.sale).where(Void.business == business)
    sales = _sums(connection, Sale, (Sale.business == business, Sale.id.not_in(voided)))
    refunds = _sums(connection, Refund, (Refund.business == business,))
    return [
        (*key, *sales.get(key, (0, 0)), *refunds.get(key, (0, 0)))
        for key in sorted(sales.keys() | refunds.keys())
    ]


def _sums(connection, model, conditions):
    columns = model.day, model.payment, func.count(), func.sum(model.amount)
    rows = connection.execute(select(*columns).where(*conditions).group_by(model.day, model.payment))
    return {(day, payment): (count, int(amount)) for day, payment, count, amount in rows}
