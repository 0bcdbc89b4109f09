import { Module } from '@nestjs/common';
import { RemindersProcessor } from './reminders.processor.ts';

@Module({ providers: [RemindersProcessor], exports: [RemindersProcessor] })
export class RemindersModule {}
