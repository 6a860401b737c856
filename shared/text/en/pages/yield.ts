/** Texts of the page of a well’s yield tests. */
export const yieldPageTexts = {
  subject: 'the yield tests',
  intro:
    'How much water the well gives: draw evenly for an hour or more and note the level minute by minute. A well contractor does it best; the level sensor can read along.',
  caution:
    'Stop before the level comes near the pump: a pump that runs dry is ruined in minutes. Lead the water away where it neither floods nor freezes. Leave the well cap closed: a level is read from a sensor, or by the licensed contractor who sounds the well.',
  enter: 'Enter a test',
  date: 'Date',
  static: 'Static level, before the pump starts',
  flow: 'Flow, if held even',
  points: 'While the pump runs: time, level, flow if read; one line each',
  recovery: 'After it stopped: time, level; one line each',
  doneBy: 'Done by',
  remark: 'Note',
  save: 'Save the test',
  saved: 'Saved.',
  tests: 'Tests over the years',
  fromSensors: (when: string) => `Fill in from the sensors: the run of ${when}`,
  sensorsHelp:
    'The longest run of the last month, by the level sensor. It is a test only if water was drawn evenly all along: check the lines before you save them.',
  examples: {
    static: { us: '41 ft', metric: '12.5 m' },
    flow: { us: '9.5 gpm', metric: '36 L/min' },
    points: {
      us: '1 min, 52 ft, 10 gpm\n5 min, 71 ft\n15 min, 88 ft',
      metric: '1 min, 15.8 m, 38 L/min\n5 min, 21.6 m\n15 min, 26.8 m',
    },
    recovery: { us: '5 min, 70 ft\n30 min, 44 ft', metric: '5 min, 21.3 m\n30 min, 13.4 m' },
  },
};
