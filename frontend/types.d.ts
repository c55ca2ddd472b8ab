/* What crosses the front end's boundaries, for who reads it and for the check of types: nothing of this is served.
   A script whose first line says `@ts-check` is checked against it. */

interface Window {
  /** Starts the core in a worker; the page's first script. */
  startCore(): Worker;
  coreWorker: Worker;
}

/* The core: backend/core/bridge.py behind core-worker.js. */

/** What the core finds wrong, in data; worded at the edge. */
interface Problem {
  field: string;
  rule: string;
  given?: unknown;
  limit?: unknown;
  quantity?: string;
}

/** What the core replies: its answer has the shape that the method's docstring tells. */
type CoreReply = { answer: any; problems?: undefined } | { answer?: undefined; problems: Problem[] };

/** A question for the core: the method of the bridge and its arguments. */
type Question = [method: string, args?: object];

/** To the worker: one question, or several to be answered ahead; without either, whether it is up. */
interface ToWorker {
  id: number;
  text?: string;
  ahead?: string[];
}

/** From the worker: `ahead` are pairs of a question and its reply, both JSON. */
interface FromWorker {
  id: number;
  version?: string;
  text?: string;
  /** how long the answer took the core, ms */
  took?: number;
  ahead?: [question: string, reply: string][];
  failed?: string;
}

/** /core.json: the core's sources by path. */
interface CoreSources {
  version: string;
  files: Record<string, string>;
}

/* Changes, and what of them is kept. */

/** Fields of a change, as the core checked them. */
type Fields = Record<string, any>;

/** What is made by a tap, and travels: without `record` a fact, else an edit of that description. */
interface Change {
  id: string;
  kind: string;
  fields: Fields;
  /** when it happened, UTC ms */
  at: number;
  /** `{ms}-{counter}-{device}`, ordered as text */
  stamp: string;
  /** the version of the records that the app made which made it */
  schema: number;
  record?: string;
  /** the rejected change in whose place it was made */
  replaces?: string;
}

/** A change in the outbox, and what the phone notes beside it. */
interface OwnChange extends Change {
  /** its number in the log, from when the server took it until that page of the log is here */
  accepted?: number;
  /** why the server would not take it */
  trouble?: Problem[];
  /** held only until the log is pulled anew, never sent */
  lent?: true;
}

/** A change as the log has it. */
interface LoggedChange extends Change {
  seq: number;
  /** parts were left out for this phone's role */
  partial?: boolean;
  /** when the server got it from a helper's phone, of what owners look at; UTC ms */
  received?: number;
}

/** A fact that cannot be read: the phone it was made on, and what of it is not as it should be. */
interface Aside {
  kind: string;
  at: number;
  phone: string;
  fields: string[];
}

/** A piece of the log, found by its kinds and local days. */
interface LogChunk {
  from: number;
  kinds: string[];
  days: string[];
  changes: LoggedChange[];
}

/** A description as the log tells it: each field with the stamp that set it. */
type Description = Record<string, [value: any, stamp: string]>;

/** Where the clock stands: `at` the last event time, `ms` and `counter` the last stamp. */
interface Clock {
  at?: number;
  ms: number;
  counter: number;
  /** when it was set back, UTC ms */
  set_right?: number;
}

/** Folded from the log up to its number `through`. */
interface Total {
  held: any;
  through: number;
}

/** The stores of IndexedDB, for the types of `idb`. */
type Kept = {
  outbox: { key: string; value: OwnChange };
  'outbox-chunks': { key: [first: string, last: string]; value: string };
  log: { key: number; value: LogChunk; indexes: { kinds: string; days: string } };
  descriptions: { key: string; value: Description };
  totals: { key: string; value: Total };
  remembered: { key: string; value: any };
};
type StoreName = keyof Kept;

/** A transaction that writes. */
type Writing = import('idb').IDBPTransaction<Kept, StoreName[], 'readwrite'>;

/* The exchange: POST /api/v1/sync, described at /api.html. */

type Role = 'owner' | 'helper';

/** Where a paired phone stands. */
interface Standing {
  business: string;
  epoch: string;
  /** the number of the log up to which all is here */
  cursor: number;
  /** the id of the change of that number; a phone of an older version does not know it */
  last?: string | null;
  role: Role;
}

/** What became of one change that was sent. */
interface SentResult {
  status: 'accepted' | 'duplicate' | 'rejected';
  seq?: number;
  stamp?: string;
  at?: number;
  errors?: Problem[];
}

/** The server's reply. */
interface SyncReply {
  epoch: string;
  role: Role;
  from: number;
  through: number;
  /** the id of the change of that number; null where there is none */
  last: string | null;
  more: boolean;
  changes: LoggedChange[];
  /** numbers of changes that this phone's role may not see */
  hidden: number[];
  /** one for each change sent, in that order */
  results: SentResult[];
  server_time: number;
}

/** What an exchange brought, to be written all or none. */
interface Brought {
  sync: Standing;
  page?: { from: number; changes: LoggedChange[] };
  descriptions?: Record<string, Description>;
  clock?: Clock;
  /** ids that leave the outbox */
  drop?: string[];
  /** changes that enter it or replace one there */
  put?: OwnChange[];
  /** all that was pulled before goes */
  empty?: boolean;
}
