/** Our own rules by name, as they stand behind "our own rule". */
export const RULE_NAMES: Readonly<Record<string, string>> = {
  'double-booked': 'nobody is in two places at once',
  'outside-working-day': 'work falls in the working day',
  'in-the-past': 'a visit is placed ahead of time',
};
