import { Module } from '@nestjs/common';
import { Sweeper } from './sweeper.ts';
import { SweepProcessor } from './sweep.processor.ts';
import { SweepSchedule } from './sweep-schedule.ts';

@Module({ providers: [Sweeper, SweepProcessor, SweepSchedule], exports: [Sweeper, SweepProcessor, SweepSchedule] })
export class SweepModule {}
export { Sweeper, SweepProcessor, SweepSchedule };
