import { describe, expect, test } from 'vitest';
import { restored, storable } from './envelope-text.ts';

describe('what a device sent, kept in jsonb', () => {
  const cases = [
    { what: 'a NUL', text: 'a\u0000b', asText: true },
    { what: 'a high half', text: 'a\ud83d', asText: true },
    { what: 'a low half', text: '\ude00b', asText: true },
    { what: 'a whole pair', text: '\u{1f600}', asText: false },
    { what: 'the escape written out by somebody', text: 'a\\u0000', asText: false },
    { what: 'a backslash before a NUL', text: '\\\u0000', asText: true },
    { what: 'other control characters', text: '\u0001\u001f', asText: false },
  ];
  for (const { what, text, asText } of cases) {
    test(`${what} comes back as it was`, () => {
      const envelope = { body: { who: text }, [text]: [text] };
      const stored = storable(envelope);
      expect(Object.keys(stored as object)[0] === 'asText').toBe(asText);
      expect(restored(JSON.parse(JSON.stringify(stored)))).toEqual(envelope);
    });
  }
  test('what looks like a kept text but has more in it is left alone', () => {
    for (const other of [{ asText: 'x', more: 1 }, { asText: 1 }, null, 'asText', []])
      expect(restored(other)).toEqual(other);
  });
});
