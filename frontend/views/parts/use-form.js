/* A form's life: what is typed, in which units, and the core's latest answer to it. */
import { useCallback, useLayoutEffect, useMemo, useReducer, useRef, useState } from 'preact/hooks';
import { fill } from '../../data/calculating.js';
import { blankOf, foreseeKeys, openForm, placed, rememberForm, rewritten, typedAt, unitsOf, withoutBlankRows, withRows } from '../../data/forms.js';
import { painted } from '../../data/painted.js';

const NOTHING = { input: {}, result: null, notes: [], shown: {}, problems: {} };
// an answer that comes this soon is painted together with what it answers, and nothing is painted twice
const SOON_MS = 50;

/** Open a calculator's form; null until its first texts and their answer are there. */
export function useForm(calculator) {
  const [opened, setOpened] = useState(false);
  const [, paintAgain] = useReducer((count) => count + 1, 0);
  const latest = useRef(null);
  const asked = useRef(null);
  const answer = useRef(NOTHING);

  // `path`: where something was just typed
  const ask = useCallback(
    async (path = null) => {
      const { typed, units } = latest.current;
      const mine = fill(calculator.name, withoutBlankRows(calculator, typed), unitsOf(calculator, typed, units));
      asked.current = mine;
      const late = setTimeout(paintAgain, SOON_MS);
      const reply = await mine;
      clearTimeout(late);
      // a slower answer to what was typed before is not shown
      if (mine !== asked.current) return;
      answer.current = reply;
      paintAgain();
      if (path !== null) painted().then(() => mine === asked.current && foreseeKeys(calculator, latest.current, path));
    },
    [calculator],
  );

  const change = useCallback(
    (made, path = null) => {
      latest.current = made(latest.current);
      const asking = ask(path);
      rememberForm(calculator.name, latest.current);
      return asking;
    },
    [calculator],
  );

  // before the first paint, and only with its answer, so that nothing moves while it opens
  useLayoutEffect(() => {
    let current = true;
    openForm(calculator).then(async (left) => {
      if (!current) return;
      latest.current = left;
      await ask();
      if (current) setOpened(true);
    });
    return () => {
      current = false;
      asked.current = null;
    };
  }, [calculator]);

  const ways = useMemo(() => edits(calculator, latest, change), [calculator]);
  if (!opened) return null;
  // `newest` is the answer to what is typed now, which the screen may not show yet
  return { calculator, ...latest.current, answer: answer.current, newest: () => asked.current, ...ways };
}

function edits(calculator, latest, change) {
  const typedNow = (path) => typedAt(latest.current.typed, path);
  return {
    typedAt: typedNow,
    type: (path, value) => change((old) => ({ ...old, typed: placed(old.typed, path, value) }), path),
    // `picked` names the saved piece and cloth that the texts came from
    put: (typed, picked = {}, units = null) =>
      change((old) => ({
        ...old,
        units: units ?? old.units,
        typed: { ...old.typed, ...typed },
        picked: { ...old.picked, ...picked },
      })),
    setUnit: async (field, path, from, to) => {
      const typed = await rewritten(typedNow, path, field, latest.current.units[path] ?? from, to);
      return change((old) => ({
        ...old,
        units: { ...old.units, [path]: to },
        typed: placed(old.typed, path, typed),
      }));
    },
    addRow: (list, row) =>
      change((old) => ({
        ...old,
        typed: { ...old.typed, [list]: [...old.typed[list], { ...blankOf(calculator).rows[list], ...row }] },
      })),
    putRows: (list, rows) => change((old) => withRows(calculator, old, list, rows)),
    removeRow: (list, index) =>
      change((old) => ({
        ...old,
        typed: { ...old.typed, [list]: old.typed[list].filter((_, at) => at !== index) },
        units: shifted(old.units, list, index),
      })),
  };
}

// rows behind the one taken away move up, and their units with them
function shifted(units, list, index) {
  const moved = {};
  for (const [path, unit] of Object.entries(units)) {
    const [name, row, field] = path.split('.');
    if (name !== list || Number(row) < index) moved[path] = unit;
    else if (Number(row) > index) moved[`${list}.${row - 1}.${field}`] = unit;
  }
  return moved;
}
