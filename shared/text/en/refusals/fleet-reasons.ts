/** Why the fleet did not do what it was asked, and what it passed over. */
import { ceilingText, type CeilingReached } from './ceiling.ts';

/** Why further names of a gateway's hello count for nothing. */
type NamesIgnored = 'pending-approval' | 'not-given' | CeilingReached;

function whyIgnored(why: NamesIgnored): string {
  if (why === 'pending-approval') return 'it is pending approval';
  return why === 'not-given' ? 'its credential does not cover them' : ceilingText(why);
}

export const fleetReasons = {
  'unknown-well': ({ act, well }: { act: string; well: string }) => `Cannot do ${act}: unknown well ${well}`,
  'no-room-for-well': ({ ceiling }: { ceiling: CeilingReached }) =>
    `Cannot add a well: ${ceilingText(ceiling)}`,
  'unknown-node': ({ node }: { node: string }) => `Unknown node: ${node}`,
  'no-room-for-node': ({ node, ceiling }: { node: string; ceiling: CeilingReached }) =>
    `Cannot approve ${node}: ${ceilingText(ceiling)}`,
  /** `more`: names that are not listed. */
  'names-ignored': (figures: { node: string; names: string[]; more: number; why: NamesIgnored }) => {
    const { node, names, more, why } = figures;
    const others = more > 0 ? ` and ${more} more` : '';
    return `Node ${node} speaks for names that are ignored, ${names.join(', ')}${others}: ${whyIgnored(why)}.`;
  },
  /** What was stored as a sentence. */
  'as-written': ({ text }: { text: string }) => text,
  'well-stopped': ({ well, trace }: { well: string; trace: string }) => `Cannot watch ${well}: ${trace}`,
};
