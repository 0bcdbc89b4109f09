/**
 * Refrigerants of safety classes A2L, A2, A3 and B2L (ANSI/ASHRAE Standard 34; from memory, the plate on the unit
 * wins). An unknown one is taken as flammable until somebody has read the plate.
 */
const NOT_FLAMMABLE: ReadonlySet<string> = new Set(
  (
    '11 12 13 22 23 113 114 115 116 123 124 125 134a 218 227ea 236fa 245fa 401A 401B 402A 402B 403B 404A 405A 407A ' +
    '407C 407D 407F 407H 408A 409A 409B 410A 410B 414B 416A 417A 417C 420A 421A 421B 422A 422B 422C 422D 423A 424A ' +
    '426A 427A 428A 434A 437A 438A 442A 448A 449A 449B 450A 452A 453A 458A 500 502 503 507A 508A 508B 509A 513A 514A ' +
    '515B 718 744 1233zd(E)'
  ).split(' '),
);

export const isFlammable = (refrigerant: string): boolean => !NOT_FLAMMABLE.has(refrigerant.replace(/^R-?/i, ''));
