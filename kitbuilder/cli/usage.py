"""What was typed wrong in a command line, as a code with slots."""

import click

from kitbuilder.errors import Said


def usage_said(error: click.UsageError) -> Said:
    """Return what was typed wrong, what may have been meant, and where to read on."""
    path = error.ctx.command_path if error.ctx else "kitbuilder"
    return Said("usage.see", wrong=_wrong(error), command=path)


def _wrong(error: click.UsageError) -> Said:
    likely = (getattr(error, "possibilities", None) or [""])[0]
    if isinstance(error, click.exceptions.NoArgsIsHelpError):
        return Said("usage.nothing")
    if isinstance(error, click.NoSuchOption):
        option = error.option_name
        if likely:
            return Said("usage.perhaps-option", given=option, likely=likely)
        return Said("usage.no-option", given=option)
    if isinstance(error, click.exceptions.NoSuchCommand):
        if likely:
            return Said("usage.perhaps-command", given=error.command_name, likely=likely)
        return Said("usage.no-command", given=error.command_name)
    if isinstance(error, click.MissingParameter) and error.param:
        return Said("usage.missing", name=error.param.get_error_hint(error.ctx or _empty()))
    if isinstance(error, click.BadOptionUsage):
        return _of_option(error)
    return Said("usage.other", told=error.format_message().replace("\n", " ").rstrip(".")[:200])


def _of_option(error: click.BadOptionUsage) -> Said:
    """Return what is wrong with the values of an option: too few, or one that takes none."""
    known = error.ctx.command.params if error.ctx else []
    option = next((o for o in known if error.option_name in o.opts), None)
    if option is not None and getattr(option, "is_flag", False):
        return Said("usage.no-value", given=error.option_name)
    if option is not None and option.nargs > 1:
        return Said("usage.values", given=error.option_name, count=option.nargs)
    return Said("usage.value", given=error.option_name)


def _empty() -> click.Context:
    return click.Context(click.Command("kitbuilder"))
