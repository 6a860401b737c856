/**
 * Cautions, each said in full wherever it is needed. They stand here once, so that no page and no
 * notice softens one. Where a public source says the same it is named; the wording is our own.
 * Local code, the equipment's own instructions and licensed people always rule over them.
 */
export const CAUTIONS = {
  /** Common practice, no source. */
  'only-watches':
    'Stillwell only watches. It is no safety device, and it does not replace overloads, fuses, a relief valve or a person. Zero amps on a screen is no proof that a circuit is dead.',
  /**
   * The order of 29 CFR 1910.147(d): shut down, isolate, lock, release stored energy, verify. A
   * model here, not the law on farms.
   */
  'lock-out':
    'Before anyone opens a pressure switch, a control box, a well cap or a tank: switch the breaker or disconnect off, lock it off, and check that the circuit is dead. An automatic pump can start at any second.',
  /** The Driller, "Single-phase electrical components", on the NEC's rule; state and local code. */
  electrician:
    'Work inside an electrical box, a control box or a pressure switch is for a licensed electrician or pump contractor. So is fitting a current clamp.',
  /**
   * 29 CFR 1910.334(b)(2) and OSHA's interpretation of 2001-11-19: no circuit is closed again
   * before somebody has determined that it is safe. That rule does not bind farms (29 CFR 1928.21,
   * from memory). Once at home, and when not at all: common practice, no source.
   */
  'breaker-once':
    'Look at a breaker from outside. Leave a panel alone that is wet, hot or smells burnt. If a breaker has tripped: at work for an employer do not reset it, call. At home reset it once at most, standing aside, if nobody is working there. Do not reset it after a motor that hummed or failed to start, with a wet well head, or after a storm. If it trips again, leave it off and call an electrician or a pump contractor.',
  /**
   * The power: Frederick County MD Health Department, "Well Disinfection"; who lifts it: state and
   * local code.
   */
  'well-cap':
    'Leave the well cap closed: lifting it is for a licensed well contractor, with the pump breaker switched off and locked off first.',
  /**
   * Minnesota well disinfection guide, in Paynesville Press, 1997-04-09. That older farms have tank
   * and switch in the pit: common practice.
   */
  'well-pit':
    'Stay out of well pits. People have died in them of bad air and of electric shock. If the tank, its gauge, a valve or the switch is in a pit, leave that step out and call people who have the gear for it.',
  /** 29 CFR 1910.147(d)(5) on stored energy; the Water Systems Council's tank standard. */
  'tank-pressure':
    'A pressure tank holds compressed air. Release the water pressure before anything is loosened, stay under the pressure rating on the tank, and never cut or weld a tank.',
  /**
   * Page "How to Check and Recharge a Well Pressure Tank"; Water Systems Council, "Pressure Tanks",
   * for the 2 psi.
   */
  precharge:
    'The air charge is read with the pump switched off and locked off, a tap open and the tank drained until the gauge reads zero. Read with water pressure on, it shows the system pressure and not the precharge.',
  /** The Driller, "Plumbing the Pressure Tank". */
  'relief-valve':
    'The relief valve protects the tank and the pipes if the switch fails. Never remove, plug or valve it off. Have it checked once a year.',
  /**
   * Univ. of Georgia Extension, "Disinfecting Your Well Water"; NMSU Guide M-115; EPA, "Protect
   * Your Home's Water".
   */
  contamination:
    'Opening a well or its pipes can contaminate the water. After any repair have the well disinfected, and have the water tested before it is drunk.',
  /**
   * NMSU Guide M-115; Univ. of Illinois Extension; that mixing gives off poisonous gas: from
   * memory.
   */
  disinfecting:
    'Have a well disinfected by a licensed well contractor, as the health department says. Bleach for it is plain and unscented. Never let it meet vinegar or another acid, ammonia or any other cleaner: the mixture gives off a poisonous gas. Give stock other water, by-pass carbon filters, and do not drink the water until a test is clean.',
  /** EPA, "What to Do With Your Private Well After a Flood", from memory. */
  flood:
    'If flood water has stood over the well or its wiring, leave the pump off and do not drink the water. Touch nothing electrical that is wet or stands in water. Have the wiring checked, and the well cleaned, disinfected and tested first.',
  /** Univ. of Georgia Extension. */
  'bacteria-again':
    'Bacteria that come back after disinfection mean a defect in the well. Call a licensed well contractor.',
  /** EPA and CDC, from memory. */
  nitrate:
    'Water high in nitrate must not be boiled, which concentrates it. It must not be given to infants, mixed into infant formula, or drunk by pregnant women.',
  /**
   * CDC, "Chemicals that can contaminate tap water": boiling will not remove chemicals. That it
   * makes them stronger, and the formula: CDC and EPA, from memory.
   */
  chemicals:
    'Boiling does not make this water safe. It does not remove lead, arsenic, uranium, fluoride, nitrate or PFAS, and it makes them stronger. Do not mix infant formula with this water.',
  /** CDC, as above, for boiling; the vapor in the air: ATSDR, from memory. */
  solvents:
    'Boiling does not make this water safe. It drives solvents and fuel out of the water into the air that you breathe. Ask the health department about showers as well. Do not mix infant formula with this water.',
  /**
   * EPA and CDC, from memory. CDC, "Chemicals that can contaminate tap water", names brass in old
   * submersible pumps and lead packers in wells.
   */
  'plumbing-metals':
    'Lead and copper come mostly from pipes, solder, brass and old pumps. Drink and cook with water from the cold tap alone. Let it run after it has stood for hours; the health department says how long. That lessens the metal and does not prove the water safe.',
  /** EPA, CDC. */
  'test-results':
    'Stillwell keeps test results. A certified laboratory and the health department say what they mean.',
  /**
   * Local frost rules (ecode360 10516296) for the false pressure; flame and heater are common
   * practice.
   */
  freezing:
    'Keep pump, pipes and switch from frost. A frozen line to the switch or gauge shows a false pressure. Thaw slowly by heating the room, never with an open flame. An electric heater stands dry, off the floor, on an outlet with ground-fault protection.',
  /** Kansas State Univ., Livestock Watering Handbook. */
  'stock-water':
    'Stock need water every day. Have another source ready. If they stop drinking although there is water, have stray voltage looked for.',
  /** Common practice, no source; equipment manuals say how long to wait. */
  'stored-charge':
    'Capacitors in control boxes and drives keep a dangerous charge after the power is off. Such a box is opened by licensed people alone, after the time that its own instructions name.',
  /**
   * NIOSH 86-110: more than 60 % of the dead are would-be rescuers; a later count has 35 of 97 (J.
   * Hazard. Mater. 36, 1994). 29 CFR 1910.146, from memory: a model here, not the law on farms.
   */
  'closed-space':
    'Never enter a storage tank or cistern, and never lean in alone. Look through the hatch from outside, from a guarded stand. The air in it can kill, and so can the water. Many of the dead went in to help somebody: call the fire department, and stay out.',
  /**
   * American Ground Water Trust, "Generators", for the isolation switch, the backfeed and the
   * start. Transfer equipment: NEC 702.5; 20 ft: CPSC; both from memory. Interlock and volts:
   * common practice.
   */
  generator:
    'Connect a generator only through a transfer switch or interlock that an electrician fitted: backfeed kills people who work on the lines. Run it outdoors, 20 ft (6 m) or more from doors, windows and vents, for its exhaust kills. It must be large enough for the motor’s start. Read the volts on its own meter while the pump runs. If they are a tenth off the motor’s plate, switch the pump off.',
  /** Common practice, no source. */
  'heavy-lift':
    'Pipe, water and pump together are heavy and hang over a deep hole. Pulling them is no work for one person, and near overhead lines it can be deadly.',
  /** Common practice, no source. */
  scalding:
    'A pump that ran without water can be full of boiling water and steam. Let it cool for hours, touch nothing on it, and leave its plugs to whoever services it.',
  /** Common practice, no source. */
  'local-rules':
    'Local code, the instructions of the equipment and licensed contractors rule over anything said here.',
} as const satisfies Record<string, string>;

export type Caution = keyof typeof CAUTIONS;

/**
 * A reset within a step, in short; 'breaker-once' goes along and has its sources. "It" is the
 * breaker.
 */
export const IF_IT_TRIPPED =
  'If it has tripped: at work for an employer do not reset it, call. At home, if nobody is working there, reset it once, standing aside; never after a motor that hummed or failed to start, a wet well head or a storm.';
