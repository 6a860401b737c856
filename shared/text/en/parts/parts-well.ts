/**
 * Texts about the parts in the well. The trade's common knowledge, in our own words; no source
 * unless one is named.
 */
import type { Part, PartWords } from './part-words.ts';

export const WELL_PARTS = {
  well: {
    name: 'Well and casing',
    purpose:
      'A hole down to water, lined with a pipe. This lining, the casing, keeps the hole from caving in and keeps surface water out. Water enters below it, through a screen, slots or bare rock.',
    failure:
      'A cracked casing, or a lost seal around it, lets surface water in. The water is cloudy after rain, or a test finds bacteria. With a clogged screen or in a dry year the well gives less water: the level falls further in each run and recovers slowly.',
    questions: [
      'How deep are the hole and the casing, and may I have the well log?',
      'What were the static and the pumping level, at what flow and after how long?',
      'How is the space around the casing sealed, and how high does the casing stand above the ground?',
    ],
    cautions: ['well-cap', 'well-pit', 'contamination', 'flood', 'bacteria-again'],
  },
  'well-cap': {
    name: 'Well cap',
    purpose:
      'The lid of the casing. A good one is sealed against water and insects and has a screened vent, so that air can flow in and out while the level moves.',
    failure:
      'A loose, cracked or missing cap lets in insects, mice and flood water, and bacteria with them. With a blocked vent, the falling water level creates suction that draws dirt in through the weakest seal.',
    questions: [
      'Is this cap sealed against insects, and are its vent and wire entry screened?',
      'Does the casing reach above the highest flood level?',
      'Who disinfects the well and has it tested after the cap has been off?',
    ],
    cautions: ['well-cap', 'contamination', 'flood'],
  },
  'submersible-pump': {
    name: 'Submersible pump',
    purpose:
      'A slim pump that hangs under water with its motor below it. Stacked impellers, the stages, each add pressure. The water that it moves cools and lubricates it.',
    failure:
      'Worn stages give less water at the same pressure, so fills get slow and the pressure reaches cut-out late or never. Sand can jam it. A dry run can ruin it in minutes.',
    questions: [
      'Which model is it, for what flow and head, and where is its curve?',
      'How deep is it set, and how far above the bottom?',
      'What stops it when the water level falls to the pump, and does its motor need a cooling sleeve?',
    ],
    cautions: ['lock-out', 'electrician', 'contamination', 'local-rules'],
  },
  'jet-pump': {
    name: 'Jet pump',
    purpose:
      'A pump above the ground that draws water up by suction, which works from a depth of about 25 ft (7.5 m) at most. One for deep wells sends water down a second pipe to a jet that pushes more up.',
    failure:
      'With a small air leak or a bad foot valve it loses its prime. It then runs but lifts nothing, and the water in it can boil. A worn shaft seal drips; a clogged jet delivers little.',
    questions: [
      'How is it primed, and must it cool down first?',
      'Where is the foot valve, and how far does it have to draw?',
      'Does it have a low-pressure cut-off for when it loses its water?',
    ],
    cautions: ['lock-out', 'electrician', 'scalding', 'freezing', 'contamination'],
  },
  motor: {
    name: 'Motor',
    purpose:
      'It turns the pump. A two-wire submersible motor has its starting parts built in, a three-wire one has them in a control box above ground, and larger ones run on three-phase power.',
    failure:
      'Failing bearings or windings make it draw more and run hot. Failing insulation trips the breaker. If it is locked up, it draws its starting current and does not turn, and the overload trips.',
    questions: [
      'What does its nameplate say: power, volts, phases and service-factor amps?',
      'How many starts an hour and a day does its manual allow?',
      'What were its winding and insulation resistance when it was installed, and who measured them?',
    ],
    cautions: ['electrician', 'lock-out', 'only-watches'],
  },
  'drop-pipe': {
    name: 'Drop pipe',
    purpose:
      'The pipe that hangs in the well. It carries the weight of the pump and brings the water up. The pump’s cable is fastened to it, often with a safety rope.',
    failure:
      'A hole or a loose joint lets water fall back into the well. Less water arrives, and the pressure falls even with the house valve closed. If the pipe breaks, the pump runs but no water comes, and the pump hangs by its rope or cable.',
    questions: [
      'What is it made of, what is its diameter, and how many lengths hang in the well?',
      'What does it take to pull it: how many people, a hoist, a truck?',
      'Is there a safety rope, and a torque arrester that takes up the twist of each start?',
    ],
    cautions: ['well-cap', 'lock-out', 'heavy-lift', 'contamination'],
  },
  'check-valve': {
    name: 'Check valve and foot valve',
    purpose:
      'It lets water go up and not back. Most submersible pumps have one built in, and there may be more in the pipe. The foot valve at the bottom of a jet pump’s suction line does the same and keeps the prime.',
    failure:
      'It leaks back: the pressure falls after each run, and the pump starts although nobody draws water. The pump has to fill the pipe before the pressure rises. A bang at start or stop is water hammer.',
    questions: [
      'How many are there, and where?',
      'Is there one above ground, and does local code require or forbid it?',
      'Which one can be changed without pulling the pump?',
    ],
    cautions: ['lock-out', 'tank-pressure', 'contamination', 'local-rules'],
  },
  'pitless-adapter': {
    name: 'Pitless adapter',
    purpose:
      'A fitting in the wall of the casing, below the frost line. It turns the water from the drop pipe into the buried pipe, and separates from above when the pump is pulled.',
    failure:
      'Its seal leaks. The pressure falls with the house valve closed, and you may hear water trickling in the well. Dirty water from the ground can get in the same way.',
    questions: [
      'How deep does it sit, and what size is it?',
      'What thread does the lift-out pipe need?',
      'When was its seal last changed?',
    ],
    cautions: ['well-cap', 'well-pit', 'lock-out', 'contamination'],
  },
} as const satisfies Partial<Record<Part, PartWords>>;
