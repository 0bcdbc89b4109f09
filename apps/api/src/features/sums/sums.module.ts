import { Module } from '@nestjs/common';
import { SUM_NAMES } from '@ullage/contracts';
import { sumController } from './sum.controller.ts';

@Module({ controllers: SUM_NAMES.map(sumController) })
export class SumsModule {}
