import { spawnSync } from 'node:child_process';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { SUM_NAMES } from '@ullage/contracts';
import { expect, test } from 'vitest';

const script = fileURLToPath(new URL('sums.ts', import.meta.url));
const run = (args: readonly string[], input: string | Uint8Array = '') => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [script, ...args], { input, encoding: 'utf8' });
  return { status, stderr, lines: stdout.split('\n').filter((line) => line !== '') };
};

test('alone it lists every sum', () => {
  const { status, lines } = run([]);
  expect(status).toBe(0);
  expect(lines.map((line) => line.split(' ')[0])).toEqual(SUM_NAMES);
});

test('each line is answered on its own line, in order; a bad one stops nothing and shows in the exit status', () => {
  const { status, lines } = run(
    ['saturation'],
    [
      '{"refrigerant":"R-134a","temperatureK":298.15}',
      '{"refrigerant":"R-134a"}',
      'not JSON',
      '',
      '{"refrigerant":"R-410A","temperatureK":298.15}',
    ].join('\r\n'),
  );
  expect(status).toBe(1);
  expect(lines.map((line) => JSON.parse(line) as Record<string, unknown>)).toMatchObject([
    { bubblePressureKpa: expect.closeTo(665.4, 0) },
    { type: '/problems/not-valid', errors: [{ pointer: '#/temperatureK' }] },
    { type: '/problems/not-valid' },
    { bubblePressureKpa: expect.closeTo(1657, 0) },
  ]);
});

test('good lines alone end with status 0; the last may lack its newline', () => {
  const line = '{"refrigerant":"R-134a","temperatureK":298.15}';
  expect(run(['saturation'], `${line}\n`)).toMatchObject({ status: 0, lines: { length: 1 } });
  expect(run(['saturation'], `${line}\n${line}`)).toMatchObject({ status: 0, lines: { length: 2 } });
});

test('bytes that are no text are refused on their own line, letters cut by a chunk are not', () => {
  const good = `{"refrigerant":"R-134a","temperatureK":298.15}${' '.repeat(70_000)}\n`;
  const broken = Buffer.concat([Buffer.from('{"refrigerant":"'), Buffer.from([0xff, 0xfe]), Buffer.from('"}\n')]);
  const { status, lines } = run(['saturation'], Buffer.concat([Buffer.from(good), broken, Buffer.from(good)]));
  expect(status).toBe(1);
  expect(lines).toHaveLength(3);
  expect(JSON.parse(lines[1]!)).toMatchObject({ type: '/problems/not-text' });
});

test('an unknown name is refused and the known ones are said', () => {
  const { status, stderr } = run(['no-such-sum'], '{}');
  expect(status).toBe(1);
  expect(stderr).toContain('saturation');
});
