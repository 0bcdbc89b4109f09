import { Controller, HttpCode, Inject, Post } from '@nestjs/common';
import type { Type } from '@nestjs/common';
import { SUMS } from '@ullage/contracts';
import type { SumName } from '@ullage/contracts';
import { runSum } from '@ullage/sums';
import type { Calendar } from '@ullage/units';
import { Can, Keyless } from '../../http/access.ts';
import { ProblemThrown } from '../../http/problem.ts';
import { Received } from '../../http/request.ts';
import { Returns, Takes } from '../../http/returns.ts';
import { CALENDAR } from '../../parts.ts';

/** The route of one sum: the same calculation as on the command line, and nothing of it is kept. */
export function sumController(name: SumName): Type {
  @Controller(`v1/sums/${name}`)
  class SumController {
    readonly #calendar: Calendar;
    constructor(@Inject(CALENDAR) calendar: Calendar) {
      this.#calendar = calendar;
    }

    @Post()
    @HttpCode(200)
    @Can('sums.ask')
    @Keyless('A sum changes nothing.')
    @Takes(SUMS[name].input)
    @Returns(SUMS[name].output)
    ask(@Received() input: unknown): unknown {
      const result = runSum(name, input, this.#calendar);
      if (!result.ok) throw new ProblemThrown(result.problem);
      return result.answer;
    }
  }
  return SumController;
}
