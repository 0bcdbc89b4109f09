import { Module } from '@nestjs/common';
import type { DynamicModule } from '@nestjs/common';
import { OncePerKey } from '../../http/once-per-key.interceptor.ts';
import { PeopleController } from './people.controller.ts';
import { PEOPLE_PARTS, PeopleService } from './people.service.ts';
import type { PeopleParts } from './people.service.ts';

export { memberOfPerson, personOf } from './members.ts';
export type { MemberOfPerson } from './members.ts';
export { writeDown } from './people-audit.ts';
export { Done } from './shapes.ts';

@Module({})
export class PeopleModule {
  static of(parts: PeopleParts): DynamicModule {
    return {
      module: PeopleModule,
      controllers: [PeopleController],
      providers: [PeopleService, OncePerKey, { provide: PEOPLE_PARTS, useValue: parts }],
    };
  }
}
