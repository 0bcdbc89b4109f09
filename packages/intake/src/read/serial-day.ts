/**
 * The day of a spreadsheet's day number. Of the two ways of counting one begins with 1 January 1900 and has a 29 February
 * of that year, which never was (ECMA-376 part 1, 18.17.4.1): from March 1900 on it counts from 30 December 1899.
 * @param serial days since the beginning, with a fraction for the time @returns undefined outside 1900 to 9999
 */
export function serialDay(serial: number, is1904: boolean): string | undefined {
  const whole = Math.floor(serial);
  const days = is1904 ? whole + 1462 : whole;
  if (!(days >= 61 && days <= 2_958_465)) return undefined;
  return civil(days - 25_569);
}

/** The calendar day so many days after 1 January 1970, by the proleptic Gregorian calendar: years that begin in March. */
function civil(sinceEpoch: number): string {
  const shifted = sinceEpoch + 719_468;
  const era = Math.floor(shifted / 146_097);
  const ofEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36_524) - Math.floor(ofEra / 146_096)) / 365,
  );
  const ofYear = ofEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const march = Math.floor((5 * ofYear + 2) / 153);
  const day = ofYear - Math.floor((153 * march + 2) / 5) + 1;
  const month = march < 10 ? march + 3 : march - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  const two = (figure: number): string => String(figure).padStart(2, '0');
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
}
