/* Bookings: those still to come, and how often a market was booked. */
import { today } from './clock.js';
import { records } from './records.js';

/** Bookings that are not over, the next one first. */
export const bookingsAhead = () => records('booking').filter(isAhead).sort(byFirstDay);

/** How often a market was booked until now, and the first day of the next one there, if there is one: {over, next}. */
export function bookedAt(market) {
  const ours = records('booking').filter((booking) => booking.market === market);
  return { over: ours.filter((booking) => !isAhead(booking)).length, next: ours.filter(isAhead).sort(byFirstDay)[0]?.days[0] };
}

const isAhead = ({ days }) => days?.some((day) => day >= today());
const byFirstDay = (a, b) => (a.days[0] < b.days[0] ? -1 : 1);
