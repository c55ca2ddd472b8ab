/* What one tap passes on: from each calculator to the next, in base units. */

const CLOTH = ['bolt_width', 'selvedge', 'shrink_length', 'shrink_width', 'squaring', 'direction', 'mixed',
  'repeat', 'shop_increment', 'minimum_cut', 'price', 'price_length'];

const stripFrom = ({ result }) => ({ strip_length: result.strip_length, strip_width: result.strip_width });
const stripOf = ({ input }) => pick(input, ['strip_length', 'strip_width']);

/** Steps by calculator: `to` another calculator, `given` in base units, `row` for its list of cloths,
    `ahead` what goes past it to the one after. */
export const STEPS = {
  'strip-length': [
    { to: 'fabric-per-dozen', label: 'Cloth to buy', given: stripFrom },
    {
      to: 'elastic-cut-length',
      label: 'Elastic for it',
      given: ({ input, defaults }) => pick({ ...defaults, ...input }, ['loop', 'stretch_limit']),
      ahead: { to: 'fabric-per-dozen', given: stripFrom },
    },
    { to: 'remnant-yield', label: 'From a remnant', given: stripFrom },
  ],
  'elastic-cut-length': [
    { to: 'fabric-per-dozen', label: 'Cloth to buy', given: () => ({}) },
  ],
  'fabric-per-dozen': [
    {
      to: 'cloth-compare',
      label: 'Compare',
      given: ({ input }) => ({ ...stripOf({ input }), quantity: input.quantity }),
      row: ({ input, cloth }) => ({ name: cloth ?? '', ...pick(input, CLOTH) }),
    },
    { to: 'remnant-yield', label: 'From a remnant', given: stripOf },
  ],
  'cloth-compare': [],
  'remnant-yield': [
    { to: 'fabric-per-dozen', label: 'Buy the rest', given: stripOf },
  ],
};

function pick(values, names) {
  return Object.fromEntries(names.filter((name) => values[name] !== undefined).map((name) => [name, values[name]]));
}
