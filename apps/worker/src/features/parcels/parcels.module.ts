import { Module } from '@nestjs/common';
import { Parcels } from './parcels.ts';

export { Parcels };

@Module({ providers: [Parcels], exports: [Parcels] })
export class ParcelsModule {}
