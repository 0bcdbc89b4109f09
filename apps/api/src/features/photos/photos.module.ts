import { Module } from '@nestjs/common';
import { PhotosController } from './photos.controller.ts';

@Module({ controllers: [PhotosController] })
export class PhotosModule {}
