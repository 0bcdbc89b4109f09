/** A program that is told when something changed. Messages are signed as the open specification Standard Webhooks says. */
import * as z from 'zod';

const WORDS = { error: 'Address: give one that begins with https://, without a password in it.' };
function isGood(text: string): boolean {
  const url = URL.parse(text);
  return url?.protocol === 'https:' && url.username === '' && url.password === '' && url.hash === '';
}
/** Whether the machine behind it may be reached is decided when it is reached: names can come to stand for another. */
export const AddWebhook = z
  .strictObject({ url: z.string(WORDS).trim().max(500, WORDS).refine(isGood, WORDS) })
  .meta({ id: 'AddWebhook' });
export type AddWebhook = z.output<typeof AddWebhook>;

export const MadeWebhook = z
  .object({
    id: z.string(),
    secret: z.string().meta({ description: 'What messages are signed with (whsec_ and base64); shown this once.' }),
  })
  .meta({ id: 'MadeWebhook' });
export type MadeWebhook = z.output<typeof MadeWebhook>;

export const SetWebhook = z.strictObject({ on: z.boolean({ error: 'On: say yes or no.' }) }).meta({ id: 'SetWebhook' });
export type SetWebhook = z.output<typeof SetWebhook>;

export const WebhookList = z
  .object({
    items: z.array(
      z.object({
        id: z.string(),
        url: z.string(),
        madeAt: z.string(),
        state: z.enum(['on', 'by-hand', 'failing']).meta({ description: 'Else who or what stopped it.' }),
        messages: z
          .array(
            z.object({
              id: z.string(),
              kind: z.enum(['changed', 'test']),
              madeAt: z.string(),
              state: z.enum(['waits', 'delivered', 'given-up']),
              tries: z.int(),
              answer: z.string().nullable(),
              nextAt: z.string().nullable(),
            }),
          )
          .meta({ description: 'The latest twenty, newest first.' }),
      }),
    ),
  })
  .meta({ id: 'WebhookList' });
export type WebhookList = z.output<typeof WebhookList>;

/** What is sent: that something changed, and up to which change. What changed is asked for at `/v1/changes`. */
export const WebhookBody = z.strictObject({
  type: z.enum(['changed', 'test']),
  timestamp: z.string(),
  data: z.strictObject({ epoch: z.int(), since: z.int(), number: z.int() }),
});
export type WebhookBody = z.output<typeof WebhookBody>;
