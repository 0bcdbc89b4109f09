const LABELS: Readonly<Record<string, string>> = {
  password: 'Password',
  currentPassword: 'Password now',
  newPassword: 'New password',
  code: 'Code',
};
/** The field of a form of one's own sign-in that a pointer belongs to. */
export function accountField(pointer: string): { id: string; label: string } | undefined {
  const name = pointer.replace(/^#?\//, '');
  const label = LABELS[name];
  return label === undefined ? undefined : { id: `account-${name}`, label };
}
