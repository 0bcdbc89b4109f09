import { Module } from '@nestjs/common';
import type { DynamicModule } from '@nestjs/common';
import { HealthController } from './health.controller.ts';
import { Metrics, Readiness } from './health.ts';

export { Metrics, Readiness } from './health.ts';

@Module({})
export class HealthModule {
  static of(readiness: Readiness, metrics: Metrics): DynamicModule {
    return {
      module: HealthModule,
      controllers: [HealthController],
      providers: [
        { provide: Readiness, useValue: readiness },
        { provide: Metrics, useValue: metrics },
      ],
    };
  }
}
