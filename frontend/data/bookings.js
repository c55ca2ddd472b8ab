/* Bookings that are still to come. */
import { today } from './clock.js';
import { records } from './records.js';

/** Bookings that are not over, the next one first. */
export const bookingsAhead = () => records('booking').filter(isAhead).sort(byFirstDay);

const isAhead = ({ days }) => days?.some((day) => day >= today());
const byFirstDay = (a, b) => (a.days[0] < b.days[0] ? -1 : 1);
