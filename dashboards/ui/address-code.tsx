/**
 * An address as a code for a telephone's camera, as large as a hand holds: black on white, also
 * where the page is dark.
 */
import { makeQrCode, QUIET_ZONE_MODULES } from '../../shared/labels/qr.ts';
import { LABEL_TOOLS } from '../labels/browser-label-tools.ts';

/** An address of this length fits far below; what does not is shown as text alone. */
const SIDE_MM = 60;

export function AddressCode({ address, about }: { address: string; about: string }) {
  const code = makeQrCode([address], SIDE_MM, LABEL_TOOLS.encode);
  if (!code) return null;
  const side = code.size + 2 * QUIET_ZONE_MODULES;
  return (
    <svg class="address-code" viewBox={`0 0 ${side} ${side}`} role="img" aria-label={about}>
      <path fill="#fff" d={`M0 0h${side}v${side}h${-side}z`} />
      <path
        fill="#000"
        shape-rendering="crispEdges"
        transform={`translate(${QUIET_ZONE_MODULES} ${QUIET_ZONE_MODULES})`}
        d={code.path}
      />
    </svg>
  );
}
