import { Module } from '@nestjs/common';
import { ReminderMails } from './reminder-mails.ts';

export { ReminderMails };

@Module({ providers: [ReminderMails], exports: [ReminderMails] })
export class MailsModule {}
