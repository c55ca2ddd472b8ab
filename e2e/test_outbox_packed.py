"""A phone that sold for long without signal: what waits is packed for quick starts, and lost to nobody."""

from .shop import act, ask, exchange, pair

# as the second version left it: 1,100 facts one by one, of which no server takes the last and one before
SECOND_VERSION = """async () => {
  const id = (n) => `0192f8a0-0000-7000-8000-${String(n).padStart(12, '0')}`;
  const device = id(0);
  const goods = { place: id(1), product: id(2), quantity: 1 };
  const fields = { day: '2026-01-01', ...goods, reason: 'found' };
  const changes = Array.from({ length: 1100 }, (_, n) => ({
    id: id(9 + n), kind: 'set-aside', fields, at: 1767225600000 + n,
    stamp: `${1767225600000 + n}-0000-${device}`, schema: 1,
  }));
  for (const n of [400, -1]) changes.at(n).fields = { ...fields, quantity: -1 };
  const opening = indexedDB.open('boltfair', 2);
  opening.onupgradeneeded = () => {
    const store = opening.result;
    store.createObjectStore('outbox', { keyPath: 'id' });
    const log = store.createObjectStore('log', { keyPath: 'from' });
    log.createIndex('kinds', 'kinds', { multiEntry: true });
    log.createIndex('days', 'days', { multiEntry: true });
    for (const name of ['remembered', 'descriptions', 'totals']) store.createObjectStore(name);
  };
  await new Promise((resolve) => { opening.onsuccess = resolve; });
  const tx = opening.result.transaction(['outbox', 'remembered'], 'readwrite');
  changes.forEach((change) => tx.objectStore('outbox').add(change));
  tx.objectStore('remembered').put(device, 'device');
  tx.objectStore('remembered').put({ ms: 1767225601100, counter: 0 }, 'clock');
  await new Promise((resolve) => { tx.oncomplete = resolve; });
  opening.result.close();
  return changes.map((change) => change.id);
}"""
# as the third version packed the first 500 of them
THIRD_VERSION = """async () => {
  const opening = indexedDB.open('boltfair', 3);
  opening.onupgradeneeded = () => {
    const chunks = opening.result.createObjectStore('outbox-chunks');
    const single = opening.transaction.objectStore('outbox');
    single.getAll(null, 500).onsuccess = ({ target: { result } }) => {
      chunks.put(result, [result[0].id, result.at(-1).id]);
      result.forEach(({ id }) => single.delete(id));
    };
  };
  await new Promise((resolve) => { opening.onsuccess = resolve; });
  opening.result.close();
}"""
# how much lies in the outbox: changes by themselves, and in each chunk
LIES = """async () => {
  const opening = indexedDB.open('boltfair');
  await new Promise((resolve) => { opening.onsuccess = resolve; });
  const tx = opening.result.transaction(['outbox', 'outbox-chunks']);
  const asked = [tx.objectStore('outbox').count(), tx.objectStore('outbox-chunks').getAll()];
  await new Promise((resolve) => { tx.oncomplete = resolve; });
  opening.result.close();
  return [asked[0].result, ...asked[1].result.map((chunk) => JSON.parse(chunk).length)];
}"""
PACKED = f"""async () => {{
  const lies = {LIES};
  while ((await lies()).length < 3) await new Promise(requestAnimationFrame);
}}"""

# as a browser does where the disk is full
NO_ROOM = """
  const { put } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.put = function full(...what) {
    if (this.name === 'outbox-chunks') throw new DOMException('full', 'QuotaExceededError');
    return put.apply(this, what);
  };
"""


def own(phone):
    return [change["id"] for change in ask(phone, "store/own-changes", "ownChanges")]


def test_what_waits_in_chunks_starts_changes_and_travels_like_the_rest(new_phone, shop):
    phone = new_phone(shop.address)
    phone.expected.append("favicon.ico")
    page = phone.switch_on().page
    page.goto(shop.address + "/healthz")
    made = page.evaluate(SECOND_VERSION)
    phone.screen.start_at("/count")
    page.evaluate(PACKED)
    assert page.evaluate(LIES) == [100, 500, 500]
    later = act(phone, "state", "set-aside", ask(phone, "store/own-changes", "ownChanges")[0]["fields"])
    phone.screen.reload()
    assert own(phone) == [*made, later]
    ask(phone, "store/own-changes", "dropChanges", [made[3], made[700], made[1050]])
    assert page.evaluate(LIES) == [100, 499, 499]
    phone.screen.reload()
    kept = [id for number, id in enumerate([*made, later]) if number not in (3, 700, 1050)]
    assert own(phone) == kept
    pair(phone, shop.code(), "Imke's phone")
    exchange(phone)
    bad = [made[400], made[-1]]
    assert own(phone) == bad
    assert page.evaluate(LIES) == [2]
    assert {fact["id"] for fact in ask(phone, "facts", "factsOf", "set-aside")} == set(kept) - set(bad)
    assert len(ask(phone, "records", "toCheck")) == 2


def test_what_an_earlier_version_packed_is_there(new_phone, shop):
    phone = new_phone(shop.address)
    phone.expected.append("favicon.ico")
    page = phone.switch_on().page
    page.goto(shop.address + "/healthz")
    made = page.evaluate(SECOND_VERSION)
    page.evaluate(THIRD_VERSION)
    phone.screen.start_at("/count")
    page.evaluate(PACKED)
    assert page.evaluate(LIES) == [100, 500, 500]
    assert own(phone) == made


def test_where_there_is_no_room_to_pack_the_phone_starts_all_the_same(new_phone, shop):
    phone = new_phone(shop.address)
    phone.expected.append("favicon.ico")
    page = phone.switch_on().page
    page.goto(shop.address + "/healthz")
    made = page.evaluate(SECOND_VERSION)
    page.add_init_script(NO_ROOM)
    phone.screen.start_at("/count").wait_until_ready_offline()
    ask(phone, "store/own-changes", "packOutbox")
    assert page.evaluate(LIES) == [len(made)]
    assert own(phone) == made
    phone.screen.wait_for_title("Count")
