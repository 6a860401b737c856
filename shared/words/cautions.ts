/**
 * Cautions, each said in full wherever it is needed. They stand here once, so that no page and no notice softens one. Where a public
 * source says the same it is named; the wording is our own. Local code, the equipment's own instructions and licensed people always
 * rule over them.
 */
export const CAUTIONS = {
  /** Common practice, no source. */
  'only-watches':
    'Stillwell only watches. It is no safety device, and it does not replace overloads, fuses, a relief valve or a person. Zero amps on a screen is no proof that a circuit is dead.',
  /** The order of 29 CFR 1910.147(d): shut down, isolate, lock, release stored energy, verify. A model here, not the law on farms. */
  'lock-out':
    'Before anyone opens a pressure switch, a control box, a well cap or a tank: switch the breaker or disconnect off, lock it off, and check that the circuit is dead. An automatic pump can start at any second.',
  /** The Driller, "Single-phase electrical components", on the NEC's rule; state and local code. */
  electrician:
    'Work inside an electrical box, a control box or a pressure switch is for a licensed electrician or pump contractor. So is fitting a current clamp.',
  /** Common practice, no source. */
  'breaker-once':
    'You may look at the breaker from outside. Leave a panel alone that is wet, hot or smells burnt. If the breaker has tripped and nobody is working there, reset it once at most. If it trips again, leave it off and call an electrician or a pump contractor.',
  /** The power: Frederick County MD Health Department, "Well Disinfection"; who lifts it: state and local code. */
  'well-cap':
    'Leave the well cap closed: lifting it is for a licensed well contractor, with the pump breaker switched off and locked off first.',
  /** Minnesota well disinfection guide, in Paynesville Press, 1997-04-09. */
  'well-pit':
    'Stay out of well pits. People have died in them of bad air and of electric shock. Leave pits to people who have the gear for it.',
  /** 29 CFR 1910.147(d)(5) on stored energy; the Water Systems Council's tank standard. */
  'tank-pressure':
    'A pressure tank holds compressed air. Release the water pressure before anything is loosened, stay under the pressure rating on the tank, and never cut or weld a tank.',
  /** Page "How to Check and Recharge a Well Pressure Tank"; Water Systems Council, "Pressure Tanks", for the 2 psi. */
  precharge:
    'The air charge is read with the pump switched off and locked off, a tap open and the tank drained until the gauge reads zero. Read with water pressure on, it shows the system pressure and not the precharge.',
  /** The Driller, "Plumbing the Pressure Tank". */
  'relief-valve':
    'The relief valve protects the tank and the pipes if the switch fails. Never remove, plug or valve it off. Have it checked once a year.',
  /** Univ. of Georgia Extension, "Disinfecting Your Well Water"; NMSU Guide M-115; EPA, "Protect Your Home's Water". */
  contamination:
    'Opening a well or its pipes can contaminate the water. After any repair have the well disinfected, and have the water tested before it is drunk.',
  /** NMSU Guide M-115; Univ. of Illinois Extension; that mixing gives off poisonous gas: from memory. */
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
    'Water high in nitrate must not be boiled, which concentrates it, and must not be given to infants.',
  /** EPA, CDC. */
  'test-results':
    'Stillwell keeps test results. A certified laboratory and the health department say what they mean.',
  /** Local frost rules (ecode360 10516296) for the false pressure; the flame is common practice. */
  freezing:
    'Keep pump, pipes and switch from frost. A frozen line to the switch or gauge shows a false pressure. Thaw slowly with warm air; no open flame, and no mains heater near water.',
  /** Kansas State Univ., Livestock Watering Handbook. */
  'stock-water':
    'Stock need water every day. Have another source ready. If they stop drinking although there is water, have stray voltage looked for.',
  /** Common practice, no source; equipment manuals say how long to wait. */
  'stored-charge':
    'Capacitors in control boxes and drives keep a dangerous charge after the power is off. Such a box is opened by licensed people alone, after the time that its own instructions name.',
  /** 29 CFR 1910.146 on confined spaces, from memory. A model here, not the law on farms. */
  'closed-space':
    'Nobody climbs into a storage tank. The air in it can kill, and so can the water. Leave it to people who have the gear for closed spaces.',
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
