/** Texts of the page of nodes. */
import { formatCount } from '../format.ts';

export const nodesTexts = {
  title: 'Nodes',
  intro: 'A node is a box with sensors. New nodes wait here for approval and keep their readings until then.',
  subject: 'the nodes',
  pendingApproval: 'Pending approval',
  nonePending: 'None.',
  approved: 'Approved',
  none: 'None yet.',
  credentialHelp:
    'A node connects to the built-in broker with a user name and a password. To create and show them once, run this command on this computer, in the program folder:',
  nodeNameHelp:
    'NAME is the node’s own name; most nodes have the name of their well. Enter both in the node, with the address of this computer. Nodes elsewhere on the farm’s network can connect if the server was started with --listen and that address.',
  password: (password: string) => `Password, shown only once: ${password}`,
  actionFailed: 'The action failed. Try again.',
  lastHeard: (ago: string) => `Last message ${ago}.`,
  measures: (channels: string) => `Measures ${channels}.`,
  approvalCaution: 'Approve only nodes that you or people you know installed.',
  approve: (node: string) => `Approve ${node}`,
  node: 'Node',
  lastMessage: 'Last message',
  wells: 'Wells',
  channels: 'Measures',
  poweredBy: 'Power supply',
  firmware: 'Firmware',
  unknown: 'unknown',
  powerSupplies: {
    'pump-circuit': 'the pump circuit',
    'other-circuit': 'another circuit',
    battery: 'a battery',
  },
  ignoredNames: (last: string, names: number, ago: string) =>
    `${last} ${formatCount(names, 'name')} so far, last ${ago}.`,
  noFirmware: 'Firmware unknown.',
  firmwareIs: (firmware: string) => `Firmware ${firmware}.`,
  never: 'never',
};
