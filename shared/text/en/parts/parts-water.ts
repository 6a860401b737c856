/**
 * Texts about pipes, tanks and treatment. The trade's common knowledge, in our own words; a source
 * is named if there is one.
 */
import type { Part, PartWords } from './part-words.ts';

export const WATER_PARTS = {
  pipes: {
    name: 'Pipes, valves and taps',
    purpose:
      'They carry the water from the well to the tank and on to house, yard and livestock. Valves divide the system, so that one section can be shut off while the rest stays in use.',
    failure:
      'A leak shows as pressure that falls while nobody draws water, as starts at night, or as wet ground. If a valve is left closed, the taps are dry while the pump runs. Freezing bursts pipes that hold water.',
    questions: [
      'Where does the buried pipe run, how deep, and what is it made of?',
      'Which valve shuts off the house, and which ones are on the well side?',
      'Can any valve cut the pump off from its switch and relief valve? None should.',
    ],
    cautions: ['contamination', 'freezing', 'relief-valve', 'local-rules', 'well-pit'],
  },
  'constant-pressure-valve': {
    name: 'Constant-pressure valve',
    purpose:
      'A valve between pump and tank that throttles the pump, so that the pressure stays steady while water is drawn. The pump then runs as long as water is used, and the tank can be small.',
    failure:
      'Stuck open, it lets the pressure swing as if it were not there. Clogged, it lets little water through, and the pump works against a closed pipe and overheats.',
    questions: [
      'What pressure is it set to, and what must the switch settings and precharge be?',
      'Can the pipe between pump and valve withstand the pump’s full pressure?',
      'What minimum flow does it let through, and is that enough to cool the motor?',
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
      'It holds water and air, separated by a bladder or diaphragm. The air pushes the water out between runs, so that the pump can rest. Its precharge is the pressure of the air while the tank is empty of water: with a pressure switch, 2 psi (14 kPa) below cut-in.',
    failure:
      'It loses air, or its bladder tears. The pump then starts often, the pressure swings quickly, and the tank is heavy and sounds full when tapped. Water at the air valve proves a torn bladder.',
    questions: [
      'How large is it, and how much water does it give between cut-out and cut-in?',
      'What precharge was it set to, with the tank empty, and when?',
      'What is the maximum pressure on its nameplate?',
      'Does one fill keep the pump running for at least a minute, as its motor needs?',
    ],
    cautions: ['precharge', 'tank-pressure', 'lock-out', 'relief-valve', 'well-pit'],
  },
  'pressure-gauge': {
    name: 'Pressure gauge',
    purpose:
      'The dial gauge at the tank tee. It is used to set the switch and to check the pressure transducer.',
    failure:
      'It sticks, or reads wrong after a freeze or a knock. With the water drained it should read zero, and during a run it should move smoothly. Anything set with a wrong gauge is wrong too.',
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
      'It opens when the pressure is too high, usually because a switch has stuck, and lets the water out. It protects tank, pipes and people nearby.',
    failure:
      'It drips because it is worn, or because the pressure really is too high. Stuck closed by scale, it gives no sign until something bursts.',
    questions: [
      'At what pressure does it open, and can tank and pipes withstand that?',
      'Can it pass all the water that the pump delivers, and where does that water go?',
      'How is it tested, how often, and by whom?',
    ],
    cautions: ['relief-valve', 'tank-pressure', 'lock-out', 'well-pit'],
  },
  'storage-tank': {
    name: 'Storage tank and float',
    purpose:
      'It holds water for a day or more, for a low-yield well or a power outage. A float or level switch says when to fill it. A second pump, the booster, provides the pressure.',
    failure:
      'A stuck float lets it overflow or run empty. A cracked or open lid lets light, dirt and animals in. Without a low-level stop the booster runs dry.',
    questions: [
      'How much does it hold, and for how many days is that?',
      'At what levels does the float switch on and off, and what happens when it sticks?',
      'Is it closed, vented through a screen, and made for drinking water?',
      'When was it last cleaned and disinfected, and by whom?',
    ],
    cautions: ['closed-space', 'electrician', 'lock-out', 'contamination', 'disinfecting'],
  },
  trough: {
    name: 'Stock trough',
    purpose:
      'A tank of water for animals, kept full by a float valve, or by a pump that a float switch starts.',
    failure:
      'A broken float lets it overflow, and the pump keeps running. A closed or frozen line leaves the animals without water. A faulty heater or wire can give the animals a shock from the water, and then they do not drink.',
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
      'Filters, softeners, lamps and chemical feeders that remove something from the water or make it harmless: sand, iron, hardness, acid, bacteria. Each does one thing and needs its own service.',
    failure:
      'A spent filter slows the water, or lets through what it should catch. An ultraviolet lamp ages without a sign. A softener stuck in regeneration draws water for hours. With the bypass open nothing is treated.',
    questions: [
      'Which result of a water test is it there for?',
      'When are cartridge, salt, lamp or chemical due, and how do I see that?',
      'How is it bypassed, and is the water then safe to drink?',
      'How much water does backwash or regeneration use, and can the pump deliver that?',
    ],
    cautions: ['test-results', 'contamination', 'electrician', 'tank-pressure', 'local-rules'],
  },
} as const satisfies Partial<Record<Part, PartWords>>;
