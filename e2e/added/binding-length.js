/* Binding for an edge: from a saved cloth, onto the list. */
import { calculatorScreen } from '../calculator.js';

export const Screen = calculatorScreen({
  name: 'binding-length',
  starts: [{ kind: 'cloth', again: ['The edge'] }],
  line: ({ result }, { cloth }) => ({ ...result, name: cloth?.name ?? 'Cloth', for_what: 'Binding' }),
});
