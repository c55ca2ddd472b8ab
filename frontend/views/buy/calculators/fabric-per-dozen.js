/* What to buy of one cloth: from a saved size and a saved cloth, on to other cloths or a remnant. */
import { calculatorScreen } from '../calculator.js';
import { RowsDrawing } from '../cloth-drawing.js';

export const Screen = calculatorScreen({
  name: 'fabric-per-dozen',
  starts: [
    { kind: 'piece', workedBy: 'strip-length', again: ['The pieces'] },
    { kind: 'cloth', again: ['The layout'] },
  ],
  saves: { kind: 'cloth', word: 'cloth' },
  drawing: RowsDrawing,
  line: ({ input, result }, { cloth }) => ({ ...input, ...result, name: cloth?.name ?? 'Cloth' }),
  steps: [
    { to: 'cloth-compare', label: 'Compare', row: { list: 'cloths', kind: 'cloth' } },
    { to: 'remnant-yield', label: 'From a remnant', workedBy: 'strip-length' },
  ],
});
