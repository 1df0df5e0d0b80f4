set(sources
  bolt_grade.c filler.c fit.c gauge.c hollow_section.c material.c open_section.c outline.c profile.c
  screw_thread.c section.c solid_section.c spelling.c)
