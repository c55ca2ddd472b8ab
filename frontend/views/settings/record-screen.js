/* One record: its declared fields as a form; kept whole when new, field by field after. */
import { useEffect, useRef } from 'preact/hooks';
import { html } from 'htm/preact';
import { useLocation } from 'preact-iso';
import { bringBack, describeNew, edit, putAway } from '../../data/actions.js';
import { kindNamed, recordInWords } from '../../data/calculating.js';
import { nameOf } from '../../data/naming.js';
import { changed } from '../../data/changes.js';
import { startOfProduct } from '../../data/products.js';
import { fieldsOf, mayDo, typedRecord } from '../../data/record-forms.js';
import { mayKnow, recordById, records } from '../../data/records.js';
import { KeptState } from '../parts/kept-state.js';
import { NoSuchScreen } from '../parts/no-such-screen.js';
import { saying } from '../parts/notice.js';
import { useRecords } from '../parts/use-records.js';
import { useWords } from '../parts/use-words.js';
import { backTo } from '../parts/way-back.js';
import { Clash } from './clash.js';
import { fillLeft, keyOfForm, RecordForm, startOf, useRecordForm } from './record-form.js';
import { KINDS } from './record-kinds.js';

export function RecordScreen({ kind: name, id }) {
  useRecords();
  const known = KINDS.find((kind) => kind.name === name);
  const record = id === 'new' ? null : recordById(name, id);
  if (!known || !mayKnow(name) || (id !== 'new' && !record)) return html`<${NoSuchScreen} />`;
  const kind = kindNamed(name);
  const may = mayDo(kind);
  if (may === 'write' || (may === 'make' && !record)) return html`<${Editor} key=${id} kind=${kind} known=${known} record=${record} />`;
  return html`<${Read} kind=${kind} record=${record} />`;
}

function Read({ kind, record }) {
  const words = useWords(() => record && recordInWords(kind.name, record), [JSON.stringify(record)]);
  if (!record) return html`<${NoSuchScreen} />`;
  return html`
    <h1>${nameOf(kind.name, record)}</h1>
    <p class="lead">${words}</p>
    <p class="hint">Only an owner may change this.</p>
  `;
}

function Editor({ kind, known, record }) {
  const { route, query } = useLocation();
  const start = record ? undefined : startOf(kind, query);
  const form = useRecordForm(kind, record ?? start, keyOfForm(kind.name, record?.id ?? 'new', start));
  useTermsOfMarket(kind, record, form);
  useStartOfProduct(kind, record, form);
  if (!form.typed) return html`<h1>${record ? nameOf(kind.name, record) : known.one}</h1>`;
  const back = () => route(backTo(query, known.single ? '/settings' : `/settings/${kind.name}`));
  const save = async (fields) => {
    const done = await saying(`${nameOf(kind.name, fields)} is saved on this phone`, async () => {
      const change = record && changed(form.before, fields);
      if (!record) await fillLeft(query, await describeNew(kind.name, fields));
      else if (Object.keys(change).length) await edit(kind.name, record.id, change);
      return true;
    });
    if (done) {
      form.drop();
      back();
    }
  };
  const discard = () => {
    form.drop();
    back();
  };
  const away = async () => {
    await saying(
      `${nameOf(kind.name, record)} is archived`,
      () => putAway(kind.name, record.id),
      () => bringBack(kind.name, record.id),
    );
    back();
  };
  return html`
    <h1>${record ? nameOf(kind.name, record) : known.one}</h1>
    ${record ? html`<p><${KeptState} id=${record.id} /></p>` : !records(kind.name).length && html`<p class="lead">${known.why}</p>`}
    ${record && html`<${Clash} kind=${kind} record=${record} done=${back} />`}
    ${record && kind.name === 'remnant' && html`<p><a href=${`/make/remnant?remnant=${record.id}`}>What it could give</a></p>`}
    <${RecordForm} kind=${kind} form=${form} save=${save}>
      ${form.begun && html`<button type="button" onClick=${discard}>Discard</button>`}
      ${record && fieldsIncludeAway(kind) && html`<button type="button" onClick=${away}>Archive</button>`}
    <//>
  `;
}

const fieldsIncludeAway = (kind) => kind.fields.some((field) => field.name === 'archived');

// a booking begins with its market's terms, and may then differ
function useTermsOfMarket(kind, record, form) {
  const market = form.typed?.market;
  useEffect(() => {
    if (kind.name !== 'booking' || record || !market || !form.typed) return;
    const named = kindNamed('market');
    typedRecord(named, recordById('market', market) ?? {}, {}).then((terms) => {
      const shared = fieldsOf(kind)
        .map((field) => field.name)
        .filter((name) => name !== 'name' && terms[name] && !form.typedAt(name));
      if (shared.length) form.beginWith(Object.fromEntries(shared.map((name) => [name, terms[name]])));
    });
  }, [market]);
}

// a product begins with its size's price and group, until she says otherwise
function useStartOfProduct(kind, record, form) {
  const size = form.typed?.size;
  const filled = useRef({});
  useEffect(() => {
    if (kind.name !== 'product' || record || !size) return;
    typedRecord(kind, startOfProduct(size), {}).then(({ price, group }) => {
      const own = ([name]) => !form.typedAt(name) || form.typedAt(name) === filled.current[name];
      const start = Object.fromEntries(Object.entries({ price, group }).filter(own));
      filled.current = start;
      form.beginWith(start);
    });
  }, [size]);
}
