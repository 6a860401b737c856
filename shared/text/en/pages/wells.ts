/** Texts of the list of wells. */
import { formatCount } from '../format.ts';

export const wellsTexts = {
  title: 'Wells',
  subject: 'the wells',
  none: 'No wells yet.',
  newWellHelp:
    'Enter its name and, on its card, what you know of pump, switch and tank. It needs no sensors.',
  approveNode: 'Approve a node',
  approveNodeHelp:
    'A node is the box with the current clamp and the pressure transducer. Its well appears here after its first readings.',
  addWell: 'Add a well',
  pendingNodes: (count: number) => `${formatCount(count, 'node')} pending approval.`,
};
