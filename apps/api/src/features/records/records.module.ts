import { Module } from '@nestjs/common';
import { FeedTag } from '../../http/feed-tag.interceptor.ts';
import { BooksController } from './books.controller.ts';
import { CostsController } from './costs.controller.ts';
import { CylindersController } from './cylinders.controller.ts';
import { ManifestsController } from './manifests.controller.ts';
import { OfficeController } from './office.controller.ts';
import { RecallsController } from './recalls.controller.ts';
import { HouseController } from './house.controller.ts';
import { UnitsController } from './units.controller.ts';
import { VisitsController } from './visits.controller.ts';

/** Everything that is read of a contractor's work. */
@Module({
  controllers: [
    OfficeController,
    UnitsController,
    VisitsController,
    CylindersController,
    ManifestsController,
    BooksController,
    HouseController,
    CostsController,
    RecallsController,
  ],
  providers: [FeedTag],
})
export class RecordsModule {}
