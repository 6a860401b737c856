/**
 * Cautions, each said in full wherever it is needed. They stand here once, so that no page and no
 * notice softens one. Where a public source says the same it is named; the wording is our own.
 * Local code, the equipment's own instructions and licensed people always rule over them.
 */
export const CAUTIONS = {
  /** What a burnt contact looks like from outside: common practice, from memory. */
  'hot-panel':
    'Leave a panel, starter or disconnect alone that is wet, hot, buzzing or smells burnt, and never stand in water to reach one. Keep everybody away and call the power company. For smoke or fire call 911.',
  /** A tingle at metal is a fault to ground or an open neutral: from memory. */
  'live-metal':
    'If a tap, trough, well casing or pump house gives a tingle, or stock shy from the water, metal and water may be live. Touch neither, and nobody who touches them. Keep people and stock away. Switch the pump off at its breaker if the panel is dry and away from there. Call an electrician, and 911 if somebody is hurt.',
  /** A disconnect that is pulled under the current of a stalled motor flashes: from memory. */
  'switching-off':
    'Turn the pump’s own selector or starter to OFF first, then the breaker or disconnect. Stand to one side of it and turn your face away: it can flash. If the motor does not stop, keep away and call the power company.',
  /** Clearance of 35 ft: what power companies tell the public, from memory. */
  'downed-line':
    'Stay 35 ft (10 m) or more from a line that is down, and from fences and puddles that it touches. Call 911 and the power company. While it thunders, stay away from the well, the pump house and wire fences.',
  /** Common practice, no source. */
  'only-watches':
    'Stillwell only watches. It is no safety device, and it does not replace overloads, fuses, a relief valve or a person. Zero amps on a screen is no proof that a circuit is dead.',
  /**
   * The order of 29 CFR 1910.147(d): shut down, isolate, lock, release stored energy, verify. A
   * model here, not the law on farms.
   */
  'lock-out':
    'Pressure switches, control boxes, well caps and tanks are opened by licensed people alone. Before they do: shut the pump off, switch its breaker off and lock it off. Let the water pressure down to zero and the capacitors discharge, and prove with a meter that the circuit is dead. Keep clear until then: an automatic pump can start at any second.',
  /** The Driller, "Single-phase electrical components", on the NEC's rule; state and local code. */
  electrician:
    'Work inside an electrical box, a control box or a pressure switch is for a licensed electrician or pump contractor. So is fitting a current clamp.',
  /**
   * 29 CFR 1910.334(b)(2) and OSHA's interpretation of 2001-11-19: no circuit is closed again
   * before somebody has determined that it is safe. That rule does not bind farms (29 CFR 1928.21,
   * from memory). Once at home, when not at all, what a tripped breaker looks like and fuses:
   * common practice, no source. It goes along with 'hot-panel'.
   */
  'breaker-once':
    'A tripped breaker stands in the middle or shows a flag. Never move one with somebody’s lock or tag on it. At work leave it to an electrician. At home, when everybody says that nobody works there, push it fully off and then on, once, standing aside. Leave it off after a motor that hummed or failed to start, with a wet well head, or within a day of lightning. Fuses, and one that trips again: call an electrician.',
  /** What goes along with 'breaker-once': common practice, from memory. */
  'after-reset':
    'After a reset, watch the gauge from the door. If it does not rise within a minute, or the motor hums, switch the breaker off and call your pump contractor. If a breaker stands at off, somebody may have switched it off for a reason. Leave it off until you know who, and why. If nobody knows, call your pump contractor.',
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
    'Stay out of well pits. People have died in them of bad air and of electric shock. If the tank, its gauge, a valve or the switch is in a pit, leave that step out and call people who have the gear for it. If somebody lies in a pit, call 911 and stay out.',
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
    'The relief valve protects the tank and the pipes if the switch fails. Never remove, plug or valve it off. If a tank bulges or a pipe sprays, get away and call 911. If you find none, do not wait: have one fitted, its outlet open and pointing down. Have it checked once a year.',
  /**
   * Univ. of Georgia Extension, "Disinfecting Your Well Water"; NMSU Guide M-115; EPA, "Protect
   * Your Home's Water". That a new switch or gauge opens no well: from memory.
   */
  contamination:
    'Opening a well or its pipes can contaminate the water. After any repair that opened the well, the pump or the pipe to it, have the well disinfected, and have the water tested before it is drunk.',
  /** Backflow when pressure is lost: EPA and CDC on private wells, from memory. */
  'lost-pressure':
    'Without pressure, dirty water is drawn in at leaks and hoses, and clear water proves nothing. Use bottled water until a test is clean if a pipe broke, water stood in its trench, or a hose hung in a trough, a pool or a sprayer. Else boil the water that you drink until a test is clean. If a chemical may have been drawn in, do not use the water at all, boiled or not: call the health department.',
  /** From memory. */
  'empty-heater':
    'Turn the water heater off until the hot taps run full again. An electric heater that runs empty burns out its element.',
  /** Water over its boiling point stays liquid only while pressure is on it: from memory. */
  'runaway-heater':
    'If the water heater rumbles, steams or blows from its relief valve, keep away and open no tap: the pressure keeps its water from flashing to steam. Switch it off at its breaker, or at a gas valve away from it, and call a plumber. If it burns gas and you cannot shut it off from a distance, leave and call 911.',
  /**
   * NMSU Guide M-115; Univ. of Illinois Extension; that mixing gives off poisonous gas: from
   * memory.
   */
  disinfecting:
    'Have a well disinfected by a licensed well contractor, as the health department says. Bleach for it is plain and unscented. Never let it meet vinegar or another acid, ammonia or any other cleaner: the mixture gives off a poisonous gas. Give stock other water, by-pass carbon filters, and do not drink the water until a test is clean.',
  /** EPA, "What to Do With Your Private Well After a Flood", from memory. */
  flood:
    'When flood water comes, switch the pump off while its breaker is dry and you stand dry. If not, stay away and have the power company cut the service. Touch nothing electrical that is wet or stands in water. Leave the pump off and do not drink the water until the wiring is checked, and the well is cleaned, disinfected and tested.',
  /** Univ. of Georgia Extension; that plumbing harbors them too: from memory. */
  'bacteria-again':
    'Bacteria that come back after disinfection mostly mean a defect in the well or its plumbing. A softener, a filter, a dead end or the water heater can hold them too. Call a licensed well contractor.',
  /** EPA and CDC, from memory. */
  nitrate:
    'Water high in nitrate must not be boiled, which concentrates it. It must not be given to infants, mixed into infant formula, or drunk by pregnant women. Ask the vet before stock drink it.',
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
    'Keep pump, pipes and switch from frost. A frozen line to the switch or gauge shows a false pressure. Thaw slowly by heating the room, never with an open flame. An electric heater stands level and dry, where it cannot fall, 3 ft (1 m) from anything that burns, on an outlet with ground-fault protection. Never shut the vents of a room in which gas, oil or wood burns: the fumes kill.',
  /** Kansas State Univ., Livestock Watering Handbook. */
  'stock-water':
    'Stock need water every day. Have another source ready. If they stop drinking although there is water, do not touch the trough or the water: it may be live. Switch off the pump and any tank heater at the breaker, and call an electrician. If it is not that, have the water tested and call the vet.',
  /** Common practice, no source; equipment manuals say how long to wait. */
  'stored-charge':
    'Capacitors in control boxes and drives keep a dangerous charge after the power is off. Such a box is opened by licensed people alone, after the time that its own instructions name.',
  /**
   * NIOSH 86-110: more than 60 % of the dead are would-be rescuers; a later count has 35 of 97 (J.
   * Hazard. Mater. 36, 1994). 29 CFR 1910.146, from memory: a model here, not the law on farms.
   */
  'closed-space':
    'Never enter a storage tank or cistern, and never put your head through its hatch, alone or with help. Read the level from the ground: a gauge, a sight tube, the overflow. Do not climb a tank without a fixed ladder and rail. The air in it can kill, and so can the water. Many of the dead went in to help somebody: call 911, and stay out.',
  /**
   * American Ground Water Trust, "Generators", for the isolation switch and the backfeed. Transfer
   * equipment: NEC 702.5; 20 ft: CPSC; both from memory. Interlock: common practice.
   */
  generator:
    'Connect a generator only through a transfer switch or interlock that an electrician fitted: backfeed kills people who work on the lines. Run it outdoors, 20 ft (6 m) or more from doors, windows and vents, for its exhaust kills. If anybody feels dizzy, get everybody into fresh air and call 911.',
  /**
   * American Ground Water Trust, "Generators", for the motor's start. The order, and the volts:
   * common practice, no source.
   */
  'generator-load':
    'A generator must be large enough for the motor’s start. Start it first and let it settle, then switch the pump on. Switch the pump off before the generator stops. Read the volts on its own meter while the pump runs. If they are a tenth off the motor’s nameplate, switch the pump off and call an electrician.',
  /** Common practice, no source. */
  'heavy-lift':
    'Pipe, water and pump together are heavy and hang over a deep hole. Pulling them is work for a pump contractor with a rig, and near overhead lines it can be deadly.',
  /** Common practice, no source. */
  scalding:
    'A pump that ran without water or against a closed valve can be full of boiling water and steam. Let it cool for hours, touch nothing on it, open no valve at it, and leave its plugs to whoever services it.',
  /** Common practice, from memory. */
  'filter-change':
    'A filter ahead of the tank stands under the full pressure of the pump. Before it is changed, switch the pump off at its breaker, close the valves on both sides, and let the pressure off until the gauge reads zero. Before you switch it on again, open both valves slowly. If the pressure does not rise within a minute, switch it off and call your pump contractor. Without a valve or gauge, leave it to the contractor.',
  /** Cable and pipe share a trench: common practice. 811 is called before digging in the US. */
  'buried-cable':
    'The pump’s cable often lies beside the pipe, and a bad splice makes wet ground live. Switch the pump off before you look for wet ground, and stay off it. Do not dig: call 811 and your pump contractor first. 811 does not mark your own cable and pipe: the contractor or a private locator finds them.',
  /** Half a minute: from memory; the switch's own instructions rule. */
  'low-pressure-lever':
    'A pressure switch with a lever may have a low-pressure cut-off. First find why the pressure fell; if you cannot, leave the lever and call your pump contractor. Then use it as its instructions say. If the gauge does not rise in half a minute, let go and call: a pump without water is ruined in minutes.',
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
  'If it has tripped: at work leave it and tell your boss. At home, when everybody says that nobody works there, reset it once, standing aside. After a motor that hummed or failed to start, a wet well head or lightning within a day, leave it off and call an electrician.';
