/**
 * How urgent each kind is where its finding says nothing else: the contract's table (section 6).
 */
import type { AlarmKind, Priority } from '../../../../shared/text/en/alarms/kinds.ts';

export const DEFAULT_PRIORITY: Record<AlarmKind, Priority> = {
  'long-run': 'now',
  'dry-run': 'now',
  'failed-start': 'now',
  'no-start': 'now',
  'power-lost': 'now',
  'leg-lost': 'now',
  'no-water': 'now',
  'no-run': 'soon',
  'store-low': 'now',
  'over-pressure': 'now',
  'short-cycling': 'soon',
  'starts-over-limit': 'soon',
  'amps-high': 'soon',
  'amps-low': 'soon',
  'leg-imbalance': 'soon',
  'supply-voltage': 'soon',
  'cut-out-not-reached': 'soon',
  'slow-fill': 'soon',
  'level-low': 'soon',
  'tank-air-lost': 'soon',
  'tank-overcharged': 'soon',
  leak: 'soon',
  'freeze-risk': 'soon',
  'switch-shift': 'note',
  'cycle-count': 'note',
  'node-silent': 'soon',
  'site-silent': 'soon',
  'not-watched': 'now',
  'node-conflict': 'soon',
  'sensor-fault': 'soon',
};
