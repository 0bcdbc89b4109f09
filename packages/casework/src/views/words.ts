/** The words of the trade for what the database keeps as codes. One list, so that every screen says the same. */
export const USE_WORDS: Readonly<Record<string, string>> = {
  'commercial-refrigeration': 'commercial refrigeration',
  'industrial-process-refrigeration': 'industrial process refrigeration',
  'comfort-cooling': 'comfort cooling',
  'refrigerated-transport': 'refrigerated transport',
  other: 'other appliance',
};
export const RULEBOOK_WORDS: Readonly<Record<string, string>> = {
  'us-ods': 'US ozone-depleting refrigerants, 40 CFR 82 subpart F',
  'us-hfc': 'US HFC rule, 40 CFR 84 subpart C',
};
export const DUTY_WORDS: Readonly<Record<string, string>> = {
  inspection: 'Leak inspection',
  repair: 'Repair',
  'initial-verification': 'Initial verification test',
  'follow-up-verification': 'Follow-up verification test',
  plan: 'Retrofit or retirement plan',
  'plan-completion': 'Completion of the plan',
  'periodic-inspection': 'Periodic leak inspection',
  'extension-request': 'Request for more time',
  'chronic-report': 'Report on a chronic leaker',
};
export const FULL_CHARGE_WORDS: Readonly<Record<string, string>> = {
  manufacturer: 'maker’s figure',
  calculated: 'calculated from components',
  measured: 'measured by weight',
  range: 'midpoint of an established range',
};
export const PURPOSE_WORDS: Readonly<Record<string, string>> = {
  call: 'Call',
  repair: 'Inspection and repair',
  'follow-up': 'Follow-up verification',
  inspection: 'Periodic inspection',
};
export const FACT_WORDS: Readonly<Record<string, string>> = {
  'past-addition': 'Past addition',
  'cylinder-registered': 'Cylinder registered',
  'cylinder-weighed': 'Weighed',
  'tare-corrected': 'Tare put right',
  delivery: 'Delivery',
  'hand-over': 'Handed over',
  shipment: 'Sent to a reclaimer',
  acceptance: 'Accepted by a reclaimer',
  'cylinder-lost': 'Marked lost',
  'cylinder-found': 'Found again',
  'cylinder-returned': 'Back to its supplier',
  'cylinder-scrapped': 'Scrapped',
  'taken-back': 'Taken back',
  arrival: 'Arrived',
  departure: 'Left',
  safety: 'Safe to work',
  'tool-check': 'Tool check',
  calibration: 'Calibration',
  'instrument-retired': 'Instrument retired',
  readings: 'Readings',
  look: 'Look',
  'leak-point': 'Leak found',
  plate: 'Nameplate',
  consent: 'Customer’s decision',
  recovery: 'Recovery',
  repair: 'Repair',
  verification: 'Verification test',
  vacuum: 'Vacuum hold',
  charge: 'Charge',
  'service-loss': 'Released by opening',
  transfer: 'Transfer',
  'air-check': 'Air check',
  inspection: 'Leak inspection',
  'normal-operation': 'Runs normally',
  correction: 'Correction',
  'set-aside': 'Set aside',
  'cylinder-held': 'Set aside',
  'cylinder-released': 'Released',
  'owner-told': 'Owner told',
};
export const CERTIFICATE_WORDS: Readonly<Record<string, string>> = {
  I: 'Type I',
  II: 'Type II',
  III: 'Type III',
  universal: 'Universal',
  apprentice: 'Registered apprentice',
};
export const ACCOUNT_WORDS: Readonly<Record<string, string>> = {
  opening: 'Opening',
  supplier: 'Supplier',
  'other-party': 'Other party',
  reclaimer: 'Reclaimer',
  destroyer: 'Destroyer',
  atmosphere: 'Atmosphere',
  'service-loss': 'Service loss',
  discrepancy: 'Discrepancy',
};
/** What happened to gas that is doubted, after "it was". */
export const TAINT_WORDS_LONG: Readonly<Record<string, string>> = {
  'recovery-below-site-pressure-open-leak': 'recovered below site pressure from a circuit with an open leak',
  'cylinder-not-evacuated': 'put into a cylinder that was not evacuated before its first fill',
  'circuit-flat': 'in a circuit that was found empty',
  'circuit-above-saturation': 'in a circuit that was found above saturation',
  'nitrogen-present': 'moved where nitrogen was present',
  'hoses-not-purged': 'moved through hoses that were not purged',
  'burn-out': 'taken after a burn-out',
  'identity-unsure': 'moved by somebody who was not sure which gas it is',
  'set-aside': 'set aside by somebody',
  'air-check-over': 'found over the shop limit by an air check',
};
/** A word for a code, or the code itself when a newer kind has none yet. */
export const wordOf = (words: Readonly<Record<string, string>>, code: string): string => words[code] ?? code;
