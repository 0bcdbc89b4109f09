// What a migration may destroy, told from its text alone: the wasm engine cannot count rows.
const RISKS = [
  [/DROP TABLE (\S+)/g, 'the table is dropped with all its rows'],
  [/DROP COLUMN\s+(\S+?)[,;]/g, 'the column is dropped with its values'],
  [/ADD COLUMN\s+(\S+) (?!.*DEFAULT).*NOT NULL/g, 'a required column without default: fails when the table has rows'],
  [/ALTER COLUMN (\S+) SET NOT NULL/g, 'becomes required: fails when there are NULLs'],
  [/ALTER COLUMN (\S+) (?:SET DATA )?TYPE/g, 'the type changes: values may not convert'],
  [/DROP VALUE|DROP TYPE (\S+)/g, 'an enum (value) is removed: fails when still used'],
  [/CREATE UNIQUE INDEX (\S+)/g, 'becomes unique: fails when there are duplicates'],
];

export function warningsOf(sql) {
  return RISKS.flatMap(([pattern, why]) =>
    [...sql.matchAll(pattern)].map((found) => ({ message: `${found[1] ?? found[0]}: ${why}`, stepIndex: 0 })),
  );
}

/** The comment that heads a migration with risks, as Prisma writes it. */
export function headOf(warnings) {
  if (warnings.length === 0) return '';
  return `/*\n  Warnings:\n\n${warnings.map(({ message }) => `  - ${message}\n`).join('')}\n*/\n`;
}
