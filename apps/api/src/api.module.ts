import { Module } from '@nestjs/common';
import type { DynamicModule, Provider } from '@nestjs/common';
import { APP_FILTER, APP_GUARD, APP_INTERCEPTOR, APP_PIPE, DiscoveryModule, Reflector } from '@nestjs/core';
import { AccountModule } from './features/account/account.module.ts';
import { CommandsModule } from './features/commands/commands.module.ts';
import { HealthModule } from './features/health/health.module.ts';
import type { Metrics, Readiness } from './features/health/health.module.ts';
import { ImportsModule } from './features/imports/imports.module.ts';
import { KeysModule } from './features/keys/keys.module.ts';
import { LeavingModule } from './features/leaving/leaving.module.ts';
import { PeopleModule } from './features/people/people.module.ts';
import { PhotosModule } from './features/photos/photos.module.ts';
import { RecordsModule } from './features/records/records.module.ts';
import { ResetsModule } from './features/resets/resets.module.ts';
import { SumsModule } from './features/sums/sums.module.ts';
import { WebhooksModule } from './features/webhooks/webhooks.module.ts';
import { AccessGuard } from './http/access.guard.ts';
import type { Limits } from './http/limits.ts';
import { ProblemFilter } from './http/problem.filter.ts';
import { InTurn, Turns } from './http/turns.ts';
import { ZodPipe } from './http/zod.pipe.ts';
import { Live } from './live/live.ts';
import { LiveController } from './live/live.controller.ts';
import { CALENDAR, CLOCK, DATABASE, OFFICE } from './parts.ts';
import type { Parts } from './parts.ts';

export interface Made {
  readonly parts: Parts;
  readonly limits: Limits;
  readonly live: Live;
  readonly readiness: Readiness;
  readonly metrics: Metrics;
}

/** What features ask for by name. */
@Module({})
class PartsModule {
  static of({ parts, live }: Made): DynamicModule {
    const providers: Provider[] = [
      { provide: OFFICE, useValue: parts.office },
      { provide: DATABASE, useValue: parts.database },
      { provide: CALENDAR, useValue: parts.calendar },
      { provide: CLOCK, useValue: parts.clock },
      { provide: Live, useValue: live },
    ];
    return { module: PartsModule, global: true, providers, exports: [OFFICE, DATABASE, CALENDAR, CLOCK, Live] };
  }
}

@Module({})
export class ApiModule {
  static of(made: Made): DynamicModule {
    const { parts, limits } = made;
    return {
      module: ApiModule,
      imports: [
        DiscoveryModule,
        PartsModule.of(made),
        HealthModule.of(made.readiness, made.metrics),
        PeopleModule.of(parts),
        AccountModule.of(parts),
        KeysModule.of(parts),
        ResetsModule.of(parts),
        CommandsModule,
        ImportsModule,
        LeavingModule,
        PhotosModule,
        RecordsModule,
        SumsModule,
        WebhooksModule,
      ],
      controllers: [LiveController],
      providers: [
        {
          provide: APP_GUARD,
          useFactory: (reflector: Reflector) => new AccessGuard(reflector, { ...parts, limits }),
          inject: [Reflector],
        },
        { provide: APP_INTERCEPTOR, useValue: new InTurn(new Turns({ atOnce: parts.limits?.atOnce })) },
        { provide: APP_PIPE, useClass: ZodPipe },
        { provide: APP_FILTER, useValue: new ProblemFilter(parts.log) },
      ],
    };
  }
}
