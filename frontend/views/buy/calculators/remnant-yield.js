/* What one remnant gives: from a saved size, on to the cloth for the rest. */
import { calculatorScreen } from '../calculator.js';
import { RemnantDrawing } from '../cloth-drawing.js';

export const Screen = calculatorScreen({
  name: 'remnant-yield',
  starts: [{ kind: 'piece', workedBy: 'strip-length', again: ['The strip'] }],
  drawing: RemnantDrawing,
  steps: [{ to: 'fabric-per-dozen', label: 'Buy the rest', workedBy: 'strip-length' }],
});
