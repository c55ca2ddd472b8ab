/* A form's life: what is typed, in which units, and the core's latest answer to it. */
import { useCallback, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { fill } from '../../data/calculating.js';
import { blankOf, convertText, openForm, rememberForm, unitsOf, withoutBlankRows, withRows } from '../../data/forms.js';

const NOTHING = { input: {}, result: null, notes: [], shown: {}, problems: {} };

/** Open a calculator's form; null until its first texts and their answer are there. */
export function useForm(calculator) {
  const [form, setForm] = useState(null);
  const [answer, setAnswer] = useState(NOTHING);
  const latest = useRef(null);
  const asked = useRef(null);

  const ask = useCallback(async () => {
    const { typed, units } = latest.current;
    const mine = fill(calculator.name, withoutBlankRows(calculator, typed), unitsOf(calculator, typed, units));
    asked.current = mine;
    const reply = await mine;
    // a slower answer to what was typed before is not shown
    if (mine === asked.current) setAnswer(reply);
  }, [calculator]);

  const change = useCallback((made) => {
    latest.current = made(latest.current);
    setForm(latest.current);
    rememberForm(calculator.name, latest.current);
    return ask();
  }, [calculator]);

  // before the first paint, and only with its answer, so that nothing moves while it opens
  useLayoutEffect(() => {
    let current = true;
    openForm(calculator).then(async (opened) => {
      if (!current) return;
      latest.current = opened;
      await ask();
      if (current) setForm(latest.current);
    });
    return () => {
      current = false;
    };
  }, [calculator]);

  if (!form) return null;
  // `newest` is the answer to what is typed now, which the screen may not show yet
  return { calculator, ...form, answer, newest: () => asked.current, ...edits(calculator, latest, change) };
}

function edits(calculator, latest, change) {
  return {
    type: (path, value) => change((old) => ({ ...old, typed: placed(old.typed, path.split('.'), value) })),
    // `picked` names the saved piece and cloth that the texts came from
    put: (typed, picked = {}, units = null) => change((old) => ({
      ...old,
      units: units ?? old.units,
      typed: { ...old.typed, ...typed },
      picked: { ...old.picked, ...picked },
    })),
    setUnit: async (field, path, from, to) => {
      const text = path.split('.').reduce((inner, part) => inner?.[part], latest.current.typed);
      const typed = typeof text === 'string' && !field.keeps_number ? await convertText(text, from, to) : text;
      return change((old) => ({
        ...old,
        units: { ...old.units, [path]: to },
        typed: path.startsWith('=') ? old.typed : placed(old.typed, path.split('.'), typed),
      }));
    },
    addRow: (list, row) => change((old) => ({
      ...old,
      typed: { ...old.typed, [list]: [...old.typed[list], { ...blankOf(calculator).rows[list], ...row }] },
    })),
    putRows: (list, rows) => change((old) => withRows(calculator, old, list, rows)),
    removeRow: (list, index) => change((old) => ({
      ...old,
      typed: { ...old.typed, [list]: old.typed[list].filter((_, at) => at !== index) },
      units: shifted(old.units, list, index),
    })),
  };
}

function placed(holder, [first, ...rest], value) {
  const copy = Array.isArray(holder) ? [...holder] : { ...holder };
  copy[first] = rest.length ? placed(holder[first], rest, value) : value;
  return copy;
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
