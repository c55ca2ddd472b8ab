/* What a plan of sewing cannot know: hours, a guess of sales, minutes of a piece; and what is chosen for it. */
import { html } from 'htm/preact';
import { records } from '../../data/records.js';
import { Stepper } from '../parts/stepper.js';
import { thereAndBack } from '../parts/way-back.js';

const HOUR = 60;
const MOST_HOURS = 168;
const MOST_PIECES = 200;
const MOST_MINUTES = 600;
const MOST_GUESS = 30000;

/** What has to be said before anything can be told. */
export function SewingAsks({ asked, saysHours, choices, change }) {
  return html`
    ${
      saysHours &&
      html`<section class="plain" data-asks="hours"><h2>How long can you sew?</h2>
      <p class="lead">No laps of the last weeks tell it.</p><${Hours} choices=${choices} change=${change} /></section>`
    }
    ${
      (asked.demand_from === null || asked.demand_from === 'guess') &&
      html`<section class="plain" data-asks="guess"><h2>How many will you sell?</h2>
      <p class="lead">No market day is known yet. Guess how many pieces are asked for at one market, all together.</p>
      <${HowMany} name="Pieces at a market" value=${choices.guess} most=${MOST_GUESS} set=${(guess) => change({ guess })} /></section>`
    }
  `;
}

/** What is chosen: it can be left as it is. */
export function SewingChoices({ asked, saysHours, choices, change }) {
  const guessed = asked.products.some(({ minutes_from: from }) => from !== 'laps');
  return html`
    <section class="plain no-print">
      <h2>What it is planned with</h2>
      <label class="tick"><input type="checkbox" name="buy" checked=${choices.buy ?? true} onChange=${({ target }) => change({ buy: target.checked })} />
        <span>Cloth and elastic can be bought<small>Else only what is at home is sewn: remnants, by their area, and strips that wait.</small></span></label>
      <${HowMany} name="Pieces in a batch" hint="Left empty, as many as in the last batch of it" value=${choices.pieces} most=${MOST_PIECES} set=${(pieces) => change({ pieces })} />
      ${guessed && html`<${HowMany} name="Minutes for a piece" hint="Left empty, a guess: not all steps were ever timed" value=${choices.minutes_each} most=${MOST_MINUTES} set=${(minutes) => change({ minutes_each: minutes })} />`}
      ${!saysHours && (asked.bench_from === 'worked' || asked.bench_from === 'typed') && html`<${Hours} choices=${choices} change=${change} />`}
      <p><a href=${thereAndBack(`/settings/business/${records('business')[0]?.id ?? 'new'}`)}>Say how long you sew on each weekday</a></p>
    </section>
  `;
}

function Hours({ choices, change }) {
  const { week_minutes: minutes } = choices;
  return html`<${HowMany} name="Hours at the bench in a week" value=${minutes === undefined ? undefined : Math.round(minutes / HOUR)} most=${MOST_HOURS}
    set=${(hours) => change({ week_minutes: hours && hours * HOUR })} />`;
}

// nothing is no number: what is not said follows from what is recorded
function HowMany({ name, hint, value, most, set }) {
  return html`<div class="total review-choice"><span>${name}${hint && html`<small>${hint}</small>`}</span>
    <${Stepper} name=${name} value=${value} most=${most} set=${(number) => set(number || undefined)} /></div>`;
}
