/* What to sew before the next bookings, worked out by the core from what is recorded; for owners. */
import { ask } from './asking.js';
import { today } from './clock.js';
import { stripsWaiting } from './cuts.js';
import { factsOf } from './facts.js';
import { marketDays } from './next-market.js';
import { recordsOf } from './records.js';
import { search } from './searching.js';
import { keepSewingPlans } from './sewing-plans.js';
import { stock } from './stock.js';
import { recall, remember } from './store.js';
import { chosenThreads } from './threads.js';

const FACTS = ['batch-step', 'work-time', 'wage-set', 'batch-step-void', 'left-out'];
const KINDS = [
  'business', 'piece', 'cloth', 'remnant', 'elastic', 'thread', 'product', 'method', 'batch', 'market', 'booking', 'place',
]; // prettier-ignore
const CHOICES = 'next-sewing';
const FOUND = 'next-sewing-found';

/** What is chosen: {buy, pieces, minutes_each, week_minutes, guess}, each left out where nothing is. */
export const sewingChoices = () => recall(CHOICES, {});
export const keepSewingChoices = (choices) => remember(CHOICES, choices);
