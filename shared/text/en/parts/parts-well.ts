/**
 * Words for what stands in the hole. The trade's common knowledge, in our own words; no source
 * where none is named.
 */
import type { Part, PartWords } from './part-words.ts';

export const WELL_PARTS = {
  well: {
    name: 'Well and casing',
    purpose:
      'A hole down to water, lined with a pipe. The lining, the casing, holds the earth back and keeps surface water out. Water comes in below it, through a screen, through slots or out of bare rock.',
    failure:
      'A cracked casing, or a lost seal around it, lets surface water in. The water is cloudy after rain, or a test finds bacteria. A clogged screen or a dry year gives less water, so the level falls further in each run and comes back slowly.',
    questions: [
      'How deep are the hole and the casing, and may I have the well log?',
      'Where did the water stand at rest and while pumping, at which flow and for how long?',
      'How is the space around the casing sealed, and how high does the casing stand above the ground?',
    ],
    cautions: ['well-cap', 'well-pit', 'contamination', 'flood', 'bacteria-again'],
  },
  'well-cap': {
    name: 'Well cap',
    purpose:
      'The lid of the casing. A good one is sealed against water and insects and has a screened vent, so that the well can breathe while its level moves.',
    failure:
      'A loose, cracked or missing cap lets insects, mice and flood water in, and bacteria come with them. A blocked vent makes the falling water draw dirt in through whatever seal is weakest.',
    questions: [
      'Is this cap sealed against insects, and are its vent and wire entry screened?',
      'Does the casing stand above the highest water of a flood?',
      'Who disinfects the well and has it tested after the cap was off?',
    ],
    cautions: ['well-cap', 'contamination', 'flood'],
  },
  'submersible-pump': {
    name: 'Submersible pump',
    purpose:
      'A slim pump that hangs under water with its motor below it. Stacked wheels, the stages, each add some pressure. The water that it moves cools and lubricates it.',
    failure:
      'Worn stages give less water at the same pressure, so fills become slow and the cut-out is reached late or never. Sand can jam it. Run dry, it can be ruined in minutes.',
    questions: [
      'Which model is it, for which flow and lift, and where is its curve?',
      'How deep is it set, and how far above the bottom?',
      'What stops it when the water falls to it, and does its motor need a cooling sleeve?',
    ],
    cautions: ['lock-out', 'electrician', 'contamination', 'local-rules'],
  },
  'jet-pump': {
    name: 'Jet pump',
    purpose:
      'A pump above the ground that draws water up by suction, which works to some 25 ft (7.5 m) at most. One for deep wells sends water down a second pipe to a jet that pushes more up.',
    failure:
      'A small air leak or a bad foot valve costs it its prime. It then runs, lifts nothing, and the water in it can boil. A worn shaft seal drips; a clogged jet gives little.',
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
      'It turns the pump. A two-wire submersible motor has its starting parts built in, a three-wire one has them in a control box above ground, and larger ones run on three phases.',
    failure:
      'Failing bearings or windings make it draw more and run hot. Failing insulation trips the breaker. Held fast, it draws its starting current, does not turn, and the overload cuts it off.',
    questions: [
      'What does its plate say: power, volts, phases and service-factor amps?',
      'How many starts an hour and a day does its manual allow?',
      'Which winding and insulation resistance did it have when it went in, and who measured them?',
    ],
    cautions: ['electrician', 'lock-out', 'only-watches'],
  },
  'drop-pipe': {
    name: 'Drop pipe',
    purpose:
      'The pipe that hangs in the well. It carries the weight of the pump and brings the water up. The pump’s cable is fastened to it, often with a safety rope.',
    failure:
      'A hole or a loose joint lets water fall back into the well. Less arrives, and the pressure falls with the house valve closed. If the pipe parts, the pump runs, nothing comes, and the pump hangs by its rope or cable.',
    questions: [
      'What is it made of, how wide is it, and how many lengths hang in the well?',
      'What does pulling it take: how many people, a hoist, a truck?',
      'Is there a safety rope, and something that takes up the twist of each start?',
    ],
    cautions: ['well-cap', 'lock-out', 'heavy-lift', 'contamination'],
  },
  'check-valve': {
    name: 'Check valve and foot valve',
    purpose:
      'It lets water go up and not back. Most submersible pumps have one built in, and there may be more in the pipe. The foot valve at the bottom of a jet pump’s suction line does the same and keeps the prime.',
    failure:
      'It leaks back: the pressure falls after each run, and the pump starts although nobody draws water. It has to fill the pipe first before the pressure rises. A bang at start or stop is water hammer.',
    questions: [
      'How many are there, and where?',
      'Is there one above ground, and does local code want it or forbid it?',
      'Which one can be changed without pulling the pump?',
    ],
    cautions: ['lock-out', 'tank-pressure', 'contamination', 'local-rules'],
  },
  'pitless-adapter': {
    name: 'Pitless adapter',
    purpose:
      'A fitting in the wall of the casing, below the frost line. It turns the water from the drop pipe into the buried pipe, and parts again from above when the pump is pulled.',
    failure:
      'Its seal leaks. The pressure falls with the house valve closed, and water may be heard trickling in the well. Dirty ground water can get in by the same way.',
    questions: [
      'How deep does it sit, and which size is it?',
      'Which thread does the lifting pipe need?',
      'When was its seal last changed?',
    ],
    cautions: ['well-cap', 'well-pit', 'lock-out', 'contamination'],
  },
} as const satisfies Partial<Record<Part, PartWords>>;
