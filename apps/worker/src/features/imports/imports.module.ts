import { Module } from '@nestjs/common';
import { ImportsProcessor } from './imports.processor.ts';

@Module({ providers: [ImportsProcessor], exports: [ImportsProcessor] })
export class ImportsModule {}
export { ImportsProcessor };
