/**
 * Words for pipes, tanks and what is done to the water. The trade's common knowledge, in our own
 * words; sources where one is named.
 */
import type { Part, PartWords } from './part-words.ts';

export const WATER_PARTS = {
  pipes: {
    name: 'Pipes, valves and taps',
    purpose:
      'They carry the water from the well to the tank and on to house, yard and stock. Valves part the system, so that one piece can be shut off while the rest goes on.',
    failure:
      'A leak shows as pressure that falls while nobody draws water, as starts at night, or as wet ground. A valve left shut leaves the taps dry while the pump runs. Frost bursts what holds water.',
    questions: [
      'Where does the buried pipe run, how deep, and what is it made of?',
      'Which valve shuts off the house, and which ones stand on the well’s side?',
      'Can any valve part the pump from its switch and relief valve? None should.',
    ],
    cautions: ['contamination', 'freezing', 'relief-valve', 'local-rules', 'well-pit'],
  },
  'constant-pressure-valve': {
    name: 'Constant-pressure valve',
    purpose:
      'A valve between pump and tank that throttles the pump, so that the pressure stays even while water is drawn. The pump then runs for as long as the use goes on, and the tank can be small.',
    failure:
      'Stuck open, it lets the pressure swing as if it were not there. Clogged, it gives little, and the pump works against a closed pipe and overheats.',
    questions: [
      'To which pressure is it set, and what must switch and precharge be?',
      'Does the pipe before it stand the pump’s full pressure?',
      'Which least flow does it leave, and is that enough to cool the motor?',
    ],
    cautions: ['relief-valve', 'tank-pressure', 'lock-out', 'local-rules'],
  },
  /**
   * 2 psi: Water Systems Council, "Pressure Tanks", 2007. A minute's run: National Driller, article
   * 86027.
   */
  'pressure-tank': {
    name: 'Pressure tank',
    purpose:
      'It holds water and air, parted by a bladder or diaphragm. The air pushes the water out between runs, so that the pump can rest. Its precharge is the pressure of the air while the tank is empty of water: with a pressure switch 2 psi (14 kPa) under cut-in.',
    failure:
      'It loses air, or its bladder tears. The pump then starts often, the pressure swings quickly, and the tank is heavy and sounds full to the top. Water at the air valve proves a torn bladder.',
    questions: [
      'How large is it, and how much water does it give between cut-out and cut-in?',
      'To which precharge was it set, with the tank empty, and when?',
      'What is the highest pressure on its plate?',
      'Does one fill keep the pump running for a minute at least, as its motor wants?',
    ],
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'relief-valve', 'well-pit'],
  },
  'pressure-gauge': {
    name: 'Pressure gauge',
    purpose:
      'The dial at the tank tee. By it the switch is set, and by it a person sees whether a sensor is right.',
    failure:
      'It sticks, or reads wrong after a frost or a knock. With the water drained it should stand at zero, and in a run it should move smoothly. Whatever was set by a wrong gauge is wrong too.',
    questions: [
      'When was it last compared with another gauge?',
      'How far does its scale go? Readings are best near its middle.',
      'Must the system be drained to change it?',
    ],
    cautions: ['tank-pressure', 'freezing', 'lock-out', 'well-pit'],
  },
  'relief-valve': {
    name: 'Relief valve',
    purpose:
      'It opens when the pressure is too high, mostly because a switch has stuck, and lets the water out. It guards tank, pipes and whoever stands beside them.',
    failure:
      'It drips because it is worn, or because the pressure really is too high. Stuck shut by scale it shows nothing at all until something bursts.',
    questions: [
      'At which pressure does it open, and do tank and pipes stand that?',
      'Can it pass all that the pump delivers, and where does that water go?',
      'How is it tried, how often, and who does it?',
    ],
    cautions: ['relief-valve', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  'storage-tank': {
    name: 'Storage tank and float',
    purpose:
      'It holds the water of a day or more, where the well gives little or the power fails. A float or level switch says when to fill it. A second pump, a booster, makes the pressure.',
    failure:
      'A stuck float lets it run over or run empty. A cracked or open lid lets light, dirt and animals in. Without a low-level stop the booster runs dry.',
    questions: [
      'How much does it hold, and for how many days is that?',
      'At which levels does the float switch, and what happens when it sticks?',
      'Is it closed, vented through a screen, and made for drinking water?',
      'When was it last cleaned and disinfected, and by whom?',
    ],
    cautions: ['closed-space', 'electrician', 'lock-out', 'contamination', 'disinfecting'],
  },
  trough: {
    name: 'Stock trough',
    purpose: 'Water for animals, kept full by a float valve, or by a pump that a float switch starts.',
    failure:
      'A broken float lets it run over, and the pump goes on. A shut or frozen line leaves the animals dry. A faulty heater or wire can make the water prickle, and then they do not drink.',
    questions: [
      'How long does it last on a hot day with the pump off?',
      'What keeps its water from running back into the well?',
      'Is its heater on a ground-fault protected circuit, and who tests that?',
    ],
    cautions: ['stock-water', 'electrician', 'freezing', 'contamination'],
  },
  treatment: {
    name: 'Water treatment',
    purpose:
      'Filters, softeners, lamps and doses that take something out of the water or make it harmless: sand, iron, hardness, acid, bacteria. Each does one thing and needs its own care.',
    failure:
      'A spent filter slows the water, or lets through what it should hold. An ultraviolet lamp ages without a sign. A softener stuck in its rinse draws water for hours. With the by-pass open nothing is treated.',
    questions: [
      'For which result of which water test is it there?',
      'When are cartridge, salt, lamp or dose due, and how do I see it?',
      'How is it by-passed, and is the water fit to drink then?',
      'How much water does its rinse take, and can the pump give that?',
    ],
    cautions: ['test-results', 'contamination', 'electrician', 'tank-pressure', 'local-rules'],
  },
} as const satisfies Partial<Record<Part, PartWords>>;
