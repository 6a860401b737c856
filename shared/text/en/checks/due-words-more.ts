/**
 * Treatment, backflow and the yearly level, and the lists for a season or after an event, written
 * as in ./due-words.ts. A list is not due until its date is set or its event happens.
 */
import type { DueWords } from './due-words.ts';

export const SERVICE_WORDS = {
  treatment: {
    title: 'Treatment service',
    why: 'A spent filter lets through what it should catch, and a softener without salt does nothing.',
    steps: [
      'Note which unit it is, and whether its bypass is open or closed.',
      'Change the cartridge, or refill the salt, as the unit’s own instructions say. Relieve the pressure and drain first if they say so.',
      'Check the clock of a softener or other unit that regenerates: it must show the right time, even after a power outage.',
      'Let cold water run for a few minutes. Look for drips.',
      'Enter the date of the next change on the card.',
    ],
    cautions: ['local-rules', 'well-pit'],
    source:
      'The manufacturer’s instructions come first. Each year if they give no interval: common practice.',
  },
  'uv-lamp': {
    title: 'Ultraviolet lamp',
    why: 'An old lamp still glows but no longer kills germs. You cannot see the difference.',
    steps: [
      'Switch the unit off and unplug it before anything is opened: its light harms eyes and skin, and the lamp holds mercury.',
      'Change the lamp and clean or change the sleeve as the unit’s own instructions say; reset its hour counter.',
      'Water that flowed through while the lamp was off was not treated: disinfect the pipes downstream as the instructions say, and have the water tested.',
      'Take the old lamp to a site that accepts lamps with mercury.',
    ],
    cautions: ['local-rules', 'test-results'],
    source:
      'A lamp lasts about 9,000 h, one year (common practice, no source). The manufacturer’s hours on the card come first.',
  },
  backflow: {
    title: 'Backflow test',
    why: 'The contents of a trough, a sprayer or an irrigation line can be sucked back into the well when the pump stops.',
    steps: [
      'A certified tester tests the assembly and writes the report. Many states and water districts ask for it each year.',
      'Hoses and fill lines: keep an air gap above the trough or sprayer, and no hose end under water.',
      'If fertilizer or spray is injected into the line, make sure the check valve, the low-pressure drain and the interlock with the pump work.',
    ],
    cautions: ['contamination', 'local-rules', 'well-pit'],
    source: 'Each year: common practice, no source. Local code comes first.',
  },
  'static-level': {
    title: 'Yearly static level',
    why: 'You notice a falling water table only if you record the level each year, in the same season.',
    steps: [
      'Let the well rest for several hours, preferably overnight.',
      'Note the level sensor’s depth, or have a licensed well contractor measure it.',
      'Enter it as found. Leave the well cap closed.',
    ],
    cautions: ['well-cap', 'well-pit'],
    source: 'Each spring: common practice, no source.',
    value: { question: 'Static level', dimension: 'length' },
  },
} as const satisfies Record<string, DueWords>;

export const SEASON_WORDS = {
  winterize: {
    title: 'Winterize',
    why: 'In a place that stands empty in winter, water left in a pipe, a pump or a tank freezes.',
    steps: [
      'Tell Stillwell that the well is laid up, and until when.',
      'Switch the pump off and lock it out. Before you drain a water heater, switch it off at its breaker, or shut off the gas of a gas heater.',
      'Open all taps and let out all pressure and water. Drain lines, tank, heater, filters and traps as their own instructions say.',
      'Drain yard hydrants and hoses. Drain an above-ground pump at its drain plug.',
      'Only a person who knows the pressure limit of the lines may blow them out with air.',
      'Label the breaker: water is off, do not switch on.',
    ],
    cautions: ['lock-out', 'tank-pressure', 'freezing', 'scalding', 'well-pit'],
    source: 'Common practice, no source.',
  },
  'spring-start': {
    title: 'Spring start-up',
    why: 'Filling the system too fast, or with a tap left open in an empty house, can do more damage than the winter.',
    steps: [
      'Look from outside: pipes, tank, valves and wellhead undamaged, the breaker off, all taps but one closed.',
      'Read the tank’s air pressure while the tank is empty.',
      'Switch the pump on and stay there. Check that the gauge rises, the pump stops at cut-out, and nothing drips.',
      'Let air out slowly, tap by tap. Fill the water heater before you switch its heat on.',
      'Flush until the water is clear. Have it tested before anybody drinks it.',
      'Tell Stillwell that the well is back in use.',
    ],
    cautions: ['tank-pressure', 'test-results', 'scalding', 'well-pit'],
    source:
      'Testing after a season out of use: EPA, Revised Total Coliform Rule (40 CFR 141.854(i), from memory). Everything else: common practice, no source.',
  },
  'after-flood': {
    title: 'After a flood',
    why: 'Flood water over or near a well brings sewage, fuel and silt into it, and water into its electric parts.',
    steps: [
      'Do not drink the water, and do not use it for cooking, teeth or pets. Water livestock from another source if you can.',
      'Stay away from the pump, its wires and its box while anything is wet: electric shock kills. Switch nothing on.',
      'Have a licensed electrician check the circuit, and a licensed well contractor clear, inspect and disinfect the well.',
      'Change filters. Clean or replace treatment units that flood water got into.',
      'Have the water tested when no chlorine is left, and again a few weeks later.',
    ],
    cautions: ['flood', 'electrician', 'disinfecting', 'well-cap', 'well-pit'],
    source:
      'EPA, “Protect Your Home’s Water”: test at once after a flood. Do not switch the pump on: EPA, “What to Do After the Flood” (from memory).',
  },
  'after-lightning': {
    title: 'After lightning',
    why: 'A strike nearby can damage a motor or cable that still works for weeks.',
    steps: [
      'Wait until the storm is over. Touch neither wires nor boxes, and stay away from a wet wellhead.',
      'Look from outside: smoke, a burning smell, a box that hangs open. If you find any of these, leave the breaker off and call a licensed electrician.',
      'Check whether the pump runs and its sensors report. Leave a tripped breaker off until an electrician has checked the circuit.',
      'Have a licensed electrician or pump installer measure winding and insulation resistance lead by lead, check the surge arrester, and enter the readings.',
    ],
    cautions: ['electrician', 'lock-out', 'well-cap', 'well-pit'],
    source: 'Common practice, no source.',
  },
  'after-dry-well': {
    title: 'After a dry well',
    why: 'A pump that ran dry may be damaged, and a well that ran dry will do so again unless something changes.',
    steps: [
      'Switch the pump off and let the well rest, preferably overnight. Meanwhile, use water from another source.',
      'Do not pour hauled water down the well: it can bring in bacteria, and many places forbid it by law.',
      'Have a licensed well contractor measure the level and check whether pump, flow and amps are as before.',
      'Draw less at a time: water livestock and gardens in turn, and have leaks repaired. Ask for a pump protector that stops the pump by itself.',
      'Before anybody drinks the water, let it run clear and have it tested: mud and bacteria come up when a well is drawn down.',
    ],
    cautions: ['well-cap', 'electrician', 'contamination', 'well-pit'],
    source: 'Common practice, no source.',
  },
} as const satisfies Record<string, DueWords>;
