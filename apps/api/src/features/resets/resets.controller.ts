import { Body, Controller, Get, HttpCode, Inject, Post } from '@nestjs/common';
import { Keyless, Public } from '../../http/access.ts';
import { Returns } from '../../http/returns.ts';
import { ResetsService } from './resets.service.ts';
import { AskReset, ResetAsked, ResetWay } from './shapes.ts';

/** For somebody at the door who has forgotten the password. */
@Controller('v1/password-resets')
export class ResetsController {
  readonly #resets: ResetsService;
  constructor(@Inject(ResetsService) resets: ResetsService) {
    this.#resets = resets;
  }

  @Get()
  @Public()
  @Returns(ResetWay)
  way(): ResetWay {
    return this.#resets.way();
  }

  @Post()
  @HttpCode(200)
  @Public()
  @Keyless('Asked twice, two links come, and either works until one was used.')
  @Returns(ResetAsked)
  ask(@Body({ schema: AskReset }) { email }: AskReset): Promise<ResetAsked> {
    return this.#resets.ask(email);
  }
}
