/* What a market is worth, in a maker's words: no surer than it is. */
import { countInWords } from '../../data/naming.js';
import { showMoney } from '../parts/money.js';

/** Where a booking is opened to its parts. */
export const resultOf = (booking) => `/review/markets/${booking}`;

/** What a market is called. */
export const nameOfMarket = ({ name }) => name || 'A booking without a name';

/** Whether a market is to be kept. */
export function verdictInWords({ verdict, low, days }, wage) {
  const pay = wage === null ? 'anything' : `your ${showMoney(wage)} an hour`;
  if (low === null) return 'Cannot tell yet: one booking alone says nothing of the next.';
  if (verdict === 'keep') return wage === null ? 'Keep: it earns something.' : `Keep: it pays ${pay}.`;
  if (verdict === 'drop') return wage === null ? 'Drop: it costs more than it brings.' : `Drop: it does not pay ${pay}.`;
  return days < 3 ? `Cannot tell yet whether it pays ${pay}: there are too few days.` : `Cannot tell whether it pays ${pay}.`;
}

/** Between what an hour there lies, in 8 of 10 such cases. */
export const rangeInWords = (low, high) => (low === null ? 'on that one day' : `between ${showMoney(low)} and ${showMoney(high)}, 8 times in 10`);

/** What a market is judged from, beside all `markets`, and what that cannot tell. */
export function basedOn({ days, bookings }, markets) {
  if (!bookings) return 'No booking there is over yet: what an hour there earns cannot be told.';
  if (!days) return 'Not known by the hour: say when it opens and closes.';
  if (days > 2) return `From ${days} bookings.`;
  const from = days === 1 ? 'From one booking' : 'From two bookings';
  const elsewhere = markets.reduce((sum, market) => sum + (market.days ?? 0), 0) - days;
  if (!elsewhere)
    return `${from}, and none elsewhere: ${days === 1 ? 'what the next one earns cannot be told' : 'two say little, so the range is wide'}.`;
  if (markets.every((market) => (market.days ?? 0) < 2))
    return `${from}. No market has two yet, so all are taken as alike: which of them is better cannot be told.`;
  return `${from}, drawn towards the ${elsewhere === 1 ? 'one' : elsewhere} elsewhere, as ${days === 1 ? 'one says' : 'two say'} little.`;
}

/** How often the next day there pays the wage. */
export function chanceInWords(chance, wage) {
  return `The next booking pays ${showMoney(wage)} an hour ${timesInTen(chance)}.`;
}

/** A chance, percent, as a maker says it. Nothing is certain. */
export function timesInTen(chance) {
  const times = Math.round(chance / 10);
  if (times === 10) return 'nearly every time';
  return times === 0 ? 'hardly ever' : `about ${times === 1 ? 'once' : `${times} times`} in 10`;
}

/** What pays for a booking there, each line by itself. */
export function breakEvenInWords({ pieces, takings, with_wage: withWage, reached, of, chance, guessed }, wage) {
  if (pieces === null) return ['A piece leaves nothing there, so no number of pieces pays for it.'];
  const paid = wage && withWage !== null ? `, ${countInWords(withWage, 'piece')} with your hours paid` : '';
  const lines = [
    `${countInWords(pieces, 'piece')} pay for a booking there (${showMoney(takings)})${paid}${guessed ? '; counted with what a piece left at your other markets' : ''}.`,
  ];
  if (of) lines.push(`${reachedInWords(reached, of)}${chance === null ? '' : ` The next one does ${timesInTen(chance)}.`}`);
  return lines;
}

function reachedInWords(reached, of) {
  if (of === 1) return reached ? 'The one there was took as much.' : 'The one there was took less.';
  return `${reached === of ? `All ${of}` : `${reached} of ${of}`} took as much as that.`;
}
