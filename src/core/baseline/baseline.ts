/**
 * What is normal for one pump of one well: medians with their spread (1.4826 x MAD), learnt from
 * the first days that could be healthy, or pinned by a person. Learning: ./learn.ts.
 */
export interface Normal {
  median: number;
  /** 1.4826 x MAD. */
  spread: number;
  n: number;
}

export interface Baseline {
  atMs: number;
  pinned: boolean;
  amps?: Normal;
  cutInKpa?: Normal;
  cutOutKpa?: Normal;
  /**
   * Amps at the middle of the pressure band, where runs have a shape with both: comparable whatever
   * was drawn meanwhile.
   */
  ampsAtMid?: Normal;
  ranS?: Normal;
  /**
   * The lower quartile of run time: fills with little water drawn meanwhile, which is what the
   * tank's drawdown and the pump's delivery set.
   */
  ranLowS?: Normal;
  /**
   * The shortest runs of those days, s: behind a throttling valve any draw lengthens a run without
   * bound, and only these are fills alone.
   */
  ranMinS?: number;
  restedS?: Normal;
  cyclesPerDay?: Normal;
  ranSPerDay?: Normal;
  /** The longest run of the days learnt from. */
  longestRunS?: number;
  /** The longest rest of the days learnt from. */
  longestRestS?: number;
  /** Medians as they were last told in a baseline line. */
  lastEmitted?: {
    amps?: number;
    cutInKpa?: number;
    cutOutKpa?: number;
    ranS?: number;
    cyclesPerDay?: number;
  };
  /** The usual shape of a run: median and spread of amps and kPa at even steps from the start. */
  shape?: {
    everyS: number;
    amps: (number | null)[];
    ampsSpread: (number | null)[];
    kpa: (number | null)[];
    kpaSpread: (number | null)[];
  };
}
