set(sources
  fit.c gauge.c hollow_section.c material.c open_section.c outline.c profile.c section.c
  solid_section.c)
