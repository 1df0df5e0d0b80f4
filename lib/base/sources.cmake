set(sources
  block.c defaults.c decimal.c directions.c memory.c message.c pool.c program.c quantity.c
  quantity_arithmetic.c quantity_number.c quantity_reader.c quantity_units.c status.c text.c units.c
  xml_text.c)
