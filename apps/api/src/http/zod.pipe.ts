import { Injectable } from '@nestjs/common';
import type { ArgumentMetadata, PipeTransform } from '@nestjs/common';
import * as z from 'zod';
import { parseRequest } from './faults.ts';

/** Reads body, query and path by the schema that stands at the parameter. */
@Injectable()
export class ZodPipe implements PipeTransform {
  transform(value: unknown, metadata: ArgumentMetadata): unknown {
    const { schema } = metadata;
    if (!(schema instanceof z.ZodType) || metadata.type === 'custom') return value;
    return parseRequest(schema, value, metadata.data === undefined ? [] : [metadata.data]);
  }
}
