import { test } from 'vitest';
import { redisUrl } from './night-shift.ts';
import { mailSuite } from './mails.ts';
import { queueSuite } from './suite.ts';

if (redisUrl(1) === undefined) test.skip('queue in redis: REDIS_TEST_URL is not set', () => {});
else {
  queueSuite('redis');
  mailSuite('redis');
}
