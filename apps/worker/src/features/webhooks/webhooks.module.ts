import { Module } from '@nestjs/common';
import { Webhooks } from './webhooks.ts';

export { Webhooks };

@Module({ providers: [Webhooks], exports: [Webhooks] })
export class WebhooksModule {}
