/** Texts of the page of a well’s yield tests. */
export const yieldPageTexts = {
  subject: 'the yield tests',
  intro:
    'A yield test shows how much water the well gives. Pump at a steady rate for an hour or more and note the level each minute. It is best done by a well contractor; a level sensor can record the levels.',
  caution:
    'Stop before the level comes near the pump: a pump that runs dry is ruined in minutes. Discharge the water where it causes no flooding and no ice. Leave the well cap closed: read the level from a sensor, or have a licensed contractor measure it.',
  enter: 'Enter a test',
  date: 'Date',
  static: 'Static level, before the pump starts',
  flow: 'Flow, if held steady',
  points: 'While the pump runs: time, level, flow if read; one line each',
  recovery: 'After it stopped: time, level; one line each',
  doneBy: 'Done by',
  remark: 'Note',
  save: 'Save the test',
  saved: 'Saved.',
  tests: 'Tests over the years',
  fromSensors: (when: string) => `Fill in from the sensors: the run of ${when}`,
  sensorsHelp:
    'The longest run of the last month, from the level sensor. It counts as a test only if the flow was steady throughout: check the lines before you save them.',
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
