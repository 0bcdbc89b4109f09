import { Controller, Get, Inject, Req, Res } from '@nestjs/common';
import { Refusal } from '@ullage/contracts';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Public } from '../../http/access.ts';
import { isLocal, Metrics, Readiness } from './health.ts';

interface Standing {
  readonly status: 'ok';
}
const OK: Standing = { status: 'ok' };

@Controller()
export class HealthController {
  readonly #readiness: Readiness;
  readonly #metrics: Metrics;
  constructor(@Inject(Readiness) readiness: Readiness, @Inject(Metrics) metrics: Metrics) {
    this.#readiness = readiness;
    this.#metrics = metrics;
  }

  /** The process runs. */
  @Get('health/live')
  @Public()
  live(): Standing {
    return OK;
  }

  /** Send it requests. */
  @Get('health/ready')
  @Public()
  async ready(): Promise<Standing> {
    if (!(await this.#readiness.ready())) throw new Refusal('unavailable', 'Not ready: try again in a moment.');
    return OK;
  }

  /** Prometheus text, for a reader on this machine only. */
  @Get('metrics')
  @Public()
  async metrics(@Req() request: FastifyRequest, @Res({ passthrough: true }) reply: FastifyReply): Promise<string> {
    if (!isLocal(request)) throw new Refusal('not-found', '');
    void reply.header('content-type', this.#metrics.registry.contentType);
    return this.#metrics.registry.metrics();
  }
}
