import { expect, test } from 'vitest';
import { signatureOf } from './sign.ts';

// The test vector of the reference libraries (github.com/standard-webhooks/standard-webhooks), from memory; that the MAC agrees
// confirms it.
test('a message is signed as the specification’s example is', () => {
  const signature = signatureOf('whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw', {
    id: 'msg_p5jXN8AQM9LWM0D4loKWxJek',
    seconds: 1614265330,
    body: '{"test": 2432232314}',
  });
  expect(signature).toBe('v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=');
});
