import { Module } from '@nestjs/common';
import type { DynamicModule } from '@nestjs/common';
import { OncePerKey } from '../../http/once-per-key.interceptor.ts';
import { KeysController } from './keys.controller.ts';
import { KEYS_PARTS, KeysService } from './keys.service.ts';
import type { KeysParts } from './keys.service.ts';

@Module({})
export class KeysModule {
  static of(parts: KeysParts): DynamicModule {
    return {
      module: KeysModule,
      controllers: [KeysController],
      providers: [KeysService, OncePerKey, { provide: KEYS_PARTS, useValue: parts }],
    };
  }
}
