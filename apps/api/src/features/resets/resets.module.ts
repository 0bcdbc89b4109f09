import { Module } from '@nestjs/common';
import type { DynamicModule } from '@nestjs/common';
import { ResetsController } from './resets.controller.ts';
import { RESETS_PARTS, ResetsService } from './resets.service.ts';
import type { ResetsParts } from './resets.service.ts';

@Module({})
export class ResetsModule {
  static of(parts: ResetsParts): DynamicModule {
    return {
      module: ResetsModule,
      controllers: [ResetsController],
      providers: [ResetsService, { provide: RESETS_PARTS, useValue: parts }],
    };
  }
}
