import { Refusal } from '@ullage/contracts';
import { expect, test } from 'vitest';
import { DEPTH_MAX, strictJson } from './body.ts';

const nested = (levels: number): Buffer => Buffer.from(`${'['.repeat(levels)}${']'.repeat(levels)}`);
const codeOf = (bytes: Buffer): string => {
  try {
    strictJson(bytes);
    return 'read';
  } catch (error) {
    return error instanceof Refusal ? error.code : String(error);
  }
};

test('one JSON value is read as it is', () => {
  expect(strictJson(Buffer.from('{"name":"Żółć & <b>","n":[1,null]}'))).toEqual({ name: 'Żółć & <b>', n: [1, null] });
});

test.each([
  ['a byte that begins nothing', Buffer.from([0x22, 0xff, 0x22]), 'not-text'],
  ['a character cut in half', Buffer.from([0x22, 0xe2, 0x82, 0x22]), 'not-text'],
  ['a surrogate written as bytes', Buffer.from([0x22, 0xed, 0xa0, 0x80, 0x22]), 'not-text'],
  ['half a document', Buffer.from('{"a":'), 'not-valid'],
  ['a prototype', Buffer.from('{"a":[{"__proto__":{}}]}'), 'not-valid'],
  ['a prototype in disguise', Buffer.from('{"\\u005f_proto__":{}}'), 'not-valid'],
  ['as deep as may be', nested(DEPTH_MAX), 'read'],
  ['a level deeper', nested(DEPTH_MAX + 1), 'not-valid'],
  ['deep enough to end a careless reader', nested(400_000), 'not-valid'],
])('%s', (_, bytes, code) => {
  expect(codeOf(bytes)).toBe(code);
});
