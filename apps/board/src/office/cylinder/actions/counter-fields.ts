const FIELDS: readonly (readonly [RegExp, string, string])[] = [
  [/^gross/, 'count-gross', 'Gross weight'],
  [/^tare/, 'count-tare', 'Tare'],
  [/^since/, 'count-since', 'Holds since'],
  [/^why/, 'count-why', 'Why'],
  [/^note/, 'count-note', 'Note'],
  [/^(supplier|receiver)/, 'count-who', 'Who'],
  [/^lastSeenOn/, 'count-seen', 'Last seen on'],
  [/^evacuated/, 'count-evacuated', 'Evacuated'],
  [/^(toId|fromId|cylinders)/, 'count-to', 'To'],
];
/** The field of a counter's form that a pointer belongs to. */
export function countField(pointer: string): { id: string; label: string } | undefined {
  const path = pointer.replace(/^#?\/(body\/)?/, '');
  const found = FIELDS.find(([test]) => test.test(path));
  return found && { id: found[1], label: found[2] };
}
