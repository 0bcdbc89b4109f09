import { Module } from '@nestjs/common';
import type { DynamicModule } from '@nestjs/common';
import { AccountController } from './account.controller.ts';
import { ACCOUNT_PARTS, AccountService } from './account.service.ts';
import type { AccountParts } from './account.service.ts';

@Module({})
export class AccountModule {
  static of(parts: AccountParts): DynamicModule {
    return {
      module: AccountModule,
      controllers: [AccountController],
      providers: [AccountService, { provide: ACCOUNT_PARTS, useValue: parts }],
    };
  }
}
