/* Shows the OpenAPI document, one operation a row, and asks the calculators for an example. */
const METHODS = ['get', 'post', 'delete'];
const place = document.getElementById('api');

function element(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (key.startsWith('on')) made.addEventListener(key.slice(2), value);
    else if (value !== undefined) made.setAttribute(key, value);
  }
  made.append(...children.flat().filter((child) => child !== undefined && child !== null));
  return made;
}

const reply = await fetch(place.dataset.document);
const openapi = await reply.json();
const follow = (schema) => (schema?.$ref ? openapi.components.schemas[schema.$ref.split('/').pop()] : schema);
// an object, or the rows of a list, of which the fields are shown
const insideOf = (schema) => follow(follow(schema)?.items ?? schema);
const jsonOf = (content) => Object.values(content ?? {})[0]?.schema;

for (const text of openapi.info.description.split('\n\n')) place.append(element('p', {}, text));
for (const { name, description } of openapi.tags) {
  const rows = Object.entries(openapi.paths).flatMap(([path, methods]) =>
    METHODS.filter((method) => methods[method]?.tags?.includes(name)).map((method) => operation(path, method, methods[method])),
  );
  if (rows.length) place.append(element('section', {}, element('h2', {}, description ? `${name}: ${description}` : name), rows));
}
document.getElementById(location.hash.slice(1))?.scrollIntoView();

function operation(path, method, told) {
  const row = element(
    'details',
    { class: 'api-operation', id: told.operationId, 'data-path': path, 'data-method': method, ontoggle: fill },
    element('summary', {}, element('code', {}, `${method.toUpperCase()} ${path}`), ' ', told.summary ?? ''),
  );
  function fill() {
    if (row.open && row.childElementCount === 1) row.append(...partsOf(path, method, told));
  }
  return row;
}

function* partsOf(path, method, told) {
  if (told.description) yield element('p', {}, told.description);
  if (told.parameters?.length) yield* fields('Asked in the address', parametersOf(told.parameters));
  const body = told.requestBody?.content['application/json'];
  if (body) yield* fields('Body', body.schema);
  if (body && path.includes('/calculators/')) yield trial(path, method, body.example);
  for (const [status, { description, content }] of Object.entries(told.responses)) {
    const schema = jsonOf(content);
    if (status.startsWith('2') && schema) yield* fields(`Answer, ${status}`, schema);
    else yield element('p', {}, element('code', {}, status), ` ${description ?? ''}`);
  }
}

function parametersOf(parameters) {
  const known = parameters.map((one) => (one.$ref ? openapi.components.parameters[one.$ref.split('/').pop()] : one));
  return {
    properties: Object.fromEntries(known.map((one) => [one.name, { ...follow(one.schema), description: one.description }])),
    required: known.filter((one) => one.required).map((one) => one.name),
  };
}

function* fields(title, schema) {
  const { properties = {}, required = [] } = insideOf(schema) ?? {};
  yield element('h3', {}, title);
  yield element(
    'div',
    { class: 'api-table', tabindex: '0', role: 'region', 'aria-label': title },
    element(
      'table',
      {},
      element(
        'thead',
        {},
        element(
          'tr',
          {},
          ['Field', 'Takes', 'If left out', 'What it is'].map((head) => element('th', { scope: 'col' }, head)),
        ),
      ),
      element('tbody', {}, [...rowsOf(properties, required, '')]),
    ),
  );
}

function* rowsOf(properties, required, before) {
  for (const [name, given] of Object.entries(properties)) {
    const schema = follow(given);
    const inside = insideOf(given);
    const missing = required.includes(name) ? 'required' : 'default' in schema ? JSON.stringify(schema.default) : '';
    yield element(
      'tr',
      {},
      element('th', { scope: 'row' }, element('code', {}, before + name)),
      element('td', {}, taken(schema)),
      element('td', {}, missing),
      element('td', {}, given.description ?? schema.description ?? ''),
    );
    // three deep is a row of a list of a list
    if (inside?.properties && before.split('.').length < 4) {
      yield* rowsOf(inside.properties, inside.required ?? [], `${before}${name}.${schema.items ? 'N.' : ''}`);
    }
  }
}

function taken({ type, enum: choices, minimum, maximum, maxLength, minItems, maxItems }) {
  if (choices) return choices.filter((one) => one !== null).join(' | ');
  const [lowest, highest] = type === 'array' ? [minItems, maxItems] : [minimum, maximum ?? maxLength];
  const limits = lowest === undefined && highest === undefined ? '' : ` ${lowest ?? ''} to ${highest ?? ''}`;
  return `${[type ?? []]
    .flat()
    .filter((one) => one !== 'null')
    .join(' or ')}${limits}`;
}

function trial(path, method, example) {
  const typed = element('textarea', { rows: '8', 'aria-label': `Body for ${path}`, spellcheck: 'false' });
  typed.value = JSON.stringify(example ?? {}, null, 2);
  const told = element('pre', { role: 'status', class: 'api-answer' });
  const ask = async () => {
    told.textContent = '…';
    const answered = await fetch(path, { method, headers: { 'Content-Type': 'application/json' }, body: typed.value });
    told.textContent = JSON.stringify(await answered.json(), null, 2);
    told.dataset.status = answered.status;
  };
  return element('div', { class: 'api-trial' }, typed, element('p', {}, element('button', { type: 'button', onclick: ask }, 'Ask')), told);
}
