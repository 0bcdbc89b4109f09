import { Module } from '@nestjs/common';
import { OncePerKey } from '../../http/once-per-key.interceptor.ts';
import { LeavingController } from './leaving.controller.ts';

@Module({ controllers: [LeavingController], providers: [OncePerKey] })
export class LeavingModule {}
