/**
 * Why a watch cannot tell whether its condition holds, in words. The keys are the closed list: what
 * is not here is no answer. Each ends the sentence "Cannot tell: …".
 */
export const BECAUSE_TEXT = {
  // What is not measured.
  'needs-pressure': 'no pressure is measured',
  'needs-current': 'no pump current is measured',
  'needs-voltage': 'no supply voltage is measured',
  'needs-three-lines': 'current is not measured in all three lines',
  'needs-level': 'the water level in the well is not measured',
  'needs-store-level': 'the level in the storage tank is not measured',
  'needs-temperature': 'air temperature is not measured',
  'needs-contact': 'the switch or float contact is not read',
  // What the card does not say.
  'needs-card-motor': 'the card does not give the motor’s amps',
  'needs-card-voltage': 'the card does not give the motor’s voltage',
  'needs-card-switch': 'the card does not give cut-in and cut-out',
  'needs-card-tank': 'the card does not give the tank’s volume and precharge',
  // What has not been seen long enough.
  learning: 'normal values are still being learned',
  'too-few-runs': 'the pump has not made enough complete runs',
  'too-few-days': 'not enough whole days have been measured',
  'too-few-readings': 'there are too few readings',
  'not-long-enough': 'the condition has not lasted long enough',
  // The moment is the wrong one.
  'run-not-comparable': 'the last run is not comparable with normal runs',
  'pump-off': 'the pump is off',
  'pump-running': 'the pump is running',
  'run-unseen': 'part of the run was not measured',
  'light-load': 'the pump runs at light load',
  'fills-too-short': 'the fills are too short to measure',
  'near-limit': 'the value is between the limits that raise and clear the alarm',
  'not-this-trigger': 'this event does not decide it',
  'not-evaluated': 'it has not been evaluated yet',
  // Alarms are suppressed.
  'visit-open': 'alarms are suppressed during the service visit',
  'out-of-service': 'the well is out of service',
  'laid-up': 'the well is laid up',
  // Something else accounts for it.
  'not-this-control': 'it does not apply to this type of pump control or supply',
  expected: 'unusual water use is expected',
  'other-alarm-explains': 'another condition explains it',
  'follows-the-sun': 'a solar pump’s power follows the sun, and no water level is measured',
  'protector-waits': 'the pump protector is waiting for the well to recover',
  'may-be-generator': 'a generator may be supplying the pump for a few days',
  'sensor-in-doubt': 'the sensor may be faulty',
  'other-pump': 'another pump serves the same system',
  'better-measured': 'another alarm judges this from a better measurement',
  'measurements-disagree': 'two measurements disagree',
  // A watch that says no more.
} as const;
export type Because = keyof typeof BECAUSE_TEXT;
