set(sources memory.c message.c status.c text.c)
