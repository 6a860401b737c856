/**
 * Treatment, backflow and the yearly level, and the lists for a season or after something happened:
 * worded as ./due-words.ts. A list calls for nothing until its day is set or what it is for
 * happened.
 */
import type { DueWords } from './due-words.ts';

export const SERVICE_WORDS = {
  treatment: {
    title: 'Treatment service',
    why: 'A filter that is full passes what it caught, and a softener without salt softens nothing.',
    steps: [
      'Note which unit it is, and whether its by-pass is open or shut.',
      'Change the cartridge, or fill the salt, as the unit’s own instructions say. Let the water off first where they say so.',
      'Look at the clock of a regenerating unit: it must know the hour, also after a power cut.',
      'Let cold water run for some minutes. Look for drips.',
      'Write the next change on the card.',
    ],
    cautions: ['local-rules', 'well-pit'],
    source: 'The maker’s instructions rule; each year where nobody says otherwise: common practice.',
  },
  'uv-lamp': {
    title: 'Ultraviolet lamp',
    why: 'An old lamp still glows and kills nothing any more. Nobody sees the difference.',
    steps: [
      'Switch the unit off and unplug it before anything is opened: its light harms eyes and skin, and the lamp holds mercury.',
      'Change the lamp and clean or change the sleeve as the unit’s own instructions say; set its hours back.',
      'Water that ran through while it was off was not treated: disinfect the pipes after it as the instructions say, and have the water tested.',
      'Bring the old lamp to a place that takes lamps with mercury.',
    ],
    cautions: ['local-rules', 'test-results'],
    source:
      'Lamps serve about 9,000 h, a year (common practice, no source); the maker’s hours on the card rule.',
  },
  backflow: {
    title: 'Backflow test',
    why: 'What is in a trough, a sprayer or an irrigation line can be sucked back into the well when the pump stops.',
    steps: [
      'A certified tester tests the assembly and writes the report. Many states and water districts ask for it each year.',
      'Hoses and fill lines: an air gap over the trough or sprayer, and no hose end under water.',
      'Where fertilizer or spray is fed into the line, the check valve, the low-pressure drain and the interlock with the pump work.',
    ],
    cautions: ['contamination', 'local-rules', 'well-pit'],
    source: 'Each year: common practice, no source; local code rules.',
  },
  'static-level': {
    title: 'Yearly level',
    why: 'A water table that falls over the years is seen only by whoever writes it down, at the same season each time.',
    steps: [
      'Let the well rest for some hours, best overnight.',
      'Note the level sensor’s depth, or have a licensed well contractor sound it.',
      'Enter it as found. Leave the well cap closed for it.',
    ],
    cautions: ['well-cap', 'well-pit'],
    source: 'Each spring: common practice, no source.',
    value: { question: 'Static level', dimension: 'length' },
  },
} as const satisfies Record<string, DueWords>;

export const SEASON_WORDS = {
  winterize: {
    title: 'Winterize',
    why: 'A place that stands empty in winter freezes where water is left in a pipe, a pump or a tank.',
    steps: [
      'Tell Stillwell that the well is laid up, and until when.',
      'Switch the pump off and lock it off. Switch an electric water heater off at its breaker, or shut the gas of a gas heater, before it is drained.',
      'Open all taps and let pressure and water off. Drain lines, tank, heater, filters and traps as their own instructions say.',
      'Drain yard hydrants and hoses. A pump above ground is drained at its plug.',
      'Where air is blown through lines, whoever knows their pressure does it.',
      'Label the breaker: water is off, do not switch on.',
    ],
    cautions: ['lock-out', 'tank-pressure', 'freezing', 'scalding', 'well-pit'],
    source: 'Common practice, no source.',
  },
  'spring-start': {
    title: 'Spring start-up',
    why: 'A system that is filled too fast, or with a tap left open in an empty house, does more harm than the winter did.',
    steps: [
      'Look from outside: pipes, tank, valves and the well head whole, the breaker off, all taps but one shut.',
      'Read the tank’s air while the tank is empty.',
      'Switch the pump on and stay there: the gauge rises, the pump stops at cut-out, nothing drips.',
      'Let air out tap by tap, slowly. Fill the water heater before its heat is switched on.',
      'Flush until the water is clear, and have it tested before anybody drinks it.',
      'Tell Stillwell that the well is back in use.',
    ],
    cautions: ['tank-pressure', 'test-results', 'scalding', 'well-pit'],
    source:
      'Testing after a season’s rest: EPA, Revised Total Coliform Rule (40 CFR 141.854(i), from memory). The rest: common practice, no source.',
  },
  'after-flood': {
    title: 'After a flood',
    why: 'Flood water over or near a well brings sewage, fuel and silt into it, and water into its electric parts.',
    steps: [
      'Drink none of it and use none for cooking, teeth or pets. Stock drinks from elsewhere where it can.',
      'Stay away from the pump, its wires and its box while anything is wet: electric shock kills. Switch nothing on.',
      'Have a licensed electrician check the circuit, and a licensed well contractor clear, inspect and disinfect the well.',
      'Change filters, and clean or replace treatment that took in the water.',
      'Have the water tested when no chlorine is left, and again some weeks later.',
    ],
    cautions: ['flood', 'electrician', 'disinfecting', 'well-cap', 'well-pit'],
    source:
      'EPA, “Protect Your Home’s Water”: test at once after a flood. Do not switch the pump on: EPA, “What to Do After the Flood” (from memory).',
  },
  'after-lightning': {
    title: 'After lightning',
    why: 'A strike nearby can hurt a motor or a cable that goes on running for weeks.',
    steps: [
      'Wait until the storm is over. Touch neither wires nor boxes, and stay away from a wet well head.',
      'Look from outside: smoke, a burnt smell, a box that hangs open. Then call, and leave the breaker off.',
      'Look whether the pump runs and its sensors report. A breaker that tripped stays off until an electrician has looked.',
      'Have a licensed electrician or pump installer read ohms and megohms lead by lead, look at the surge arrester, and enter the readings.',
    ],
    cautions: ['electrician', 'lock-out', 'well-cap', 'well-pit'],
    source: 'Common practice, no source.',
  },
  'after-dry-well': {
    title: 'After a dry well',
    why: 'A pump that ran dry may be hurt, and a well that ran dry will again where nothing changes.',
    steps: [
      'Switch the pump off and let the well rest, best overnight. Use water from elsewhere meanwhile.',
      'Pour no hauled water down the well: it can bring bacteria in, and the law forbids it in many places.',
      'Have a licensed well contractor sound the level and look whether pump, flow and amps are as before.',
      'Draw less at a time: stock and gardens in turns, leaks mended. Ask for a protector that stops the pump by itself.',
      'Before the first drink let the water run clear, and have it tested: mud and bacteria come up with the last of it.',
    ],
    cautions: ['well-cap', 'electrician', 'contamination', 'well-pit'],
    source: 'Common practice, no source.',
  },
} as const satisfies Record<string, DueWords>;
