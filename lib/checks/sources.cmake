set(sources
  around.c bolt_group.c bolt_strength.c bounds.c check_bolt.c check_crack.c check_crush.c check_droop.c check_face.c
  check_mount.c check_sag.c check_spacer.c check_thread.c check_vehicle.c check_weld.c
  check_yield.c checks.c chi_squared.c crack_places.c demand.c explain.c give.c give_bounds.c give_fit.c
  give_search.c groups.c holes.c joint_face.c joint_shape.c limits.c loss_way.c losses.c omissions.c order.c place.c
  rating.c sentence.c stress.c stress_cycles.c stress_rim.c thread_strength.c torque.c
  wall_strength.c weld_cache.c weld_force.c weld_line.c weld_outline.c weld_search.c weld_strength.c working.c working_bolt.c
  working_bolted.c working_knee.c working_crack.c working_face.c working_pattern.c working_weld.c
  working_weld_line.c working_yield.c)
