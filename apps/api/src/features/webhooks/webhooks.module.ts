import { Module } from '@nestjs/common';
import { OncePerKey } from '../../http/once-per-key.interceptor.ts';
import { WebhooksController } from './webhooks.controller.ts';

@Module({ controllers: [WebhooksController], providers: [OncePerKey] })
export class WebhooksModule {}
