import { Module } from '@nestjs/common';
import { COMMAND_NAMES } from '@ullage/contracts';
import { commandController } from './command.controller.ts';
import { SyncController } from './sync.controller.ts';

@Module({ controllers: [...COMMAND_NAMES.map(commandController), SyncController] })
export class CommandsModule {}
