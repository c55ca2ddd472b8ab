/* The elastic to cut for one loop: from a saved size, on to the cloth. */
import { calculatorScreen } from '../calculator.js';

export const Screen = calculatorScreen({
  name: 'elastic-cut-length',
  starts: [{ kind: 'piece', again: ['The loop', 'The knot', 'Test knots'] }],
  rows: { samples: 'test knot' },
  line: ({ shown }, { piece }) => ({ name: 'Elastic', for_what: `${piece?.name ?? ''} ${shown.cut_length} a piece`.trim() }),
  steps: [{ to: 'fabric-per-dozen', label: 'Cloth to buy' }],
});
