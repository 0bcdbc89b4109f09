import { Module } from '@nestjs/common';
import { ImportsController } from './imports.controller.ts';

@Module({ controllers: [ImportsController] })
export class ImportsModule {}
