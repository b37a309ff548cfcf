begin_version
3
end_version
begin_metric
1
end_metric
257
begin_variable
var0
-1
25
Atom here(p-in-01)
Atom here(p-in-02)
Atom here(p-in-03)
Atom here(p-in-04)
Atom here(p-in-05)
Atom here(p-in-06)
Atom here(p-out-01)
Atom here(p-out-02)
Atom here(p-out-03)
Atom here(p-out-04)
Atom here(p-out-05)
Atom here(p-out-06)
Atom here(p-out-07)
Atom here(p-out-08)
Atom here(p-out-09)
Atom here(p-out-10)
Atom here(p-out-11)
Atom here(p-out-12)
Atom here(p-out-13)
Atom here(p-out-14)
Atom here(p-out-15)
Atom here(p-out-16)
Atom here(p-out-17)
Atom here(p-out-18)
Atom here(p-out-19)
end_variable
begin_variable
var1
-1
2
Atom done(s-van__welcome)
Atom todo(s-van__welcome)
end_variable
begin_variable
var2
-1
2
Atom done(s-battery-box__open)
Atom todo(s-battery-box__open)
end_variable
begin_variable
var3
-1
2
Atom done(s-battery-box__shut)
Atom todo(s-battery-box__shut)
end_variable
begin_variable
var4
-1
2
Atom done(s-cassette-locker__put_5f_back)
Atom todo(s-cassette-locker__put_5f_back)
end_variable
begin_variable
var5
-1
2
Atom done(s-cassette-locker__take_5f_out)
Atom todo(s-cassette-locker__take_5f_out)
end_variable
begin_variable
var6
-1
2
Atom done(s-entrance-door__lock_5f_up)
Atom todo(s-entrance-door__lock_5f_up)
end_variable
begin_variable
var7
-1
2
Atom done(s-entrance-door__unlock)
Atom todo(s-entrance-door__unlock)
end_variable
begin_variable
var8
-1
2
Atom done(s-fridge-vents__take_5f_off)
Atom todo(s-fridge-vents__take_5f_off)
end_variable
begin_variable
var9
-1
2
Atom done(s-front-locker__open)
Atom todo(s-front-locker__open)
end_variable
begin_variable
var10
-1
2
Atom done(s-front-locker__shut)
Atom todo(s-front-locker__shut)
end_variable
begin_variable
var11
-1
2
Atom done(s-heater-flue-water__show)
Atom todo(s-heater-flue-water__show)
end_variable
begin_variable
var12
-1
2
Atom done(s-waste-outlet__place)
Atom todo(s-waste-outlet__place)
end_variable
begin_variable
var13
-1
2
Atom ended(w-water-heater__filling)
NegatedAtom ended(w-water-heater__filling)
end_variable
begin_variable
var14
-1
2
Atom now(c-fridge-vents__covers, v-off)
NegatedAtom now(c-fridge-vents__covers, v-off)
end_variable
begin_variable
var15
-1
2
Atom now(c-fridge-vents__covers, v-on)
NegatedAtom now(c-fridge-vents__covers, v-on)
end_variable
begin_variable
var16
-1
2
Atom now(c-fridge-vents__looked, v-yes)
NegatedAtom now(c-fridge-vents__looked, v-yes)
end_variable
begin_variable
var17
-1
2
Atom now(c-heater-flue-room__explained, v-yes)
NegatedAtom now(c-heater-flue-room__explained, v-yes)
end_variable
begin_variable
var18
-1
2
Atom now(c-heater-flue-water__explained, v-yes)
NegatedAtom now(c-heater-flue-water__explained, v-yes)
end_variable
begin_variable
var19
-1
2
Atom done(s-heater-flue-room__take_5f_off)
Atom todo(s-heater-flue-room__take_5f_off)
end_variable
begin_variable
var20
-1
2
Atom done(s-heater-flue-water__take_5f_off)
Atom todo(s-heater-flue-water__take_5f_off)
end_variable
begin_variable
var21
-1
2
Atom now(c-heater-flue-room__cover, v-off)
NegatedAtom now(c-heater-flue-room__cover, v-off)
end_variable
begin_variable
var22
-1
2
Atom now(c-heater-flue-room__cover, v-on)
NegatedAtom now(c-heater-flue-room__cover, v-on)
end_variable
begin_variable
var23
-1
2
Atom now(c-heater-flue-room__looked, v-yes)
NegatedAtom now(c-heater-flue-room__looked, v-yes)
end_variable
begin_variable
var24
-1
2
Atom now(c-heater-flue-water__cover, v-off)
NegatedAtom now(c-heater-flue-water__cover, v-off)
end_variable
begin_variable
var25
-1
2
Atom now(c-heater-flue-water__cover, v-on)
NegatedAtom now(c-heater-flue-water__cover, v-on)
end_variable
begin_variable
var26
-1
2
Atom now(c-heater-flue-water__looked, v-yes)
NegatedAtom now(c-heater-flue-water__looked, v-yes)
end_variable
begin_variable
var27
-1
2
Atom done(s-breakaway-cable__clip)
Atom todo(s-breakaway-cable__clip)
end_variable
begin_variable
var28
-1
2
Atom done(s-hitch__show_5f_head)
Atom todo(s-hitch__show_5f_head)
end_variable
begin_variable
var29
-1
2
Atom done(s-steady-front-nearside__explain)
Atom todo(s-steady-front-nearside__explain)
end_variable
begin_variable
var30
-1
2
Atom done(s-butane__show)
Atom todo(s-butane__show)
end_variable
begin_variable
var31
-1
2
Atom done(s-entry-step__stow)
Atom todo(s-entry-step__stow)
end_variable
begin_variable
var32
-1
2
Atom done(s-entry-step__pull_5f_out)
Atom todo(s-entry-step__pull_5f_out)
end_variable
begin_variable
var33
-1
2
Atom done(s-mains-inlet__plug_5f_in)
Atom todo(s-mains-inlet__plug_5f_in)
end_variable
begin_variable
var34
-1
2
Atom done(s-water-inlet__start_5f_fill)
Atom todo(s-water-inlet__start_5f_fill)
end_variable
begin_variable
var35
-1
2
Atom running(w-water-inlet__container_5f_fill)
NegatedAtom running(w-water-inlet__container_5f_fill)
end_variable
begin_variable
var36
-1
2
Atom now(c-battery-box__lid, v-open)
NegatedAtom now(c-battery-box__lid, v-open)
end_variable
begin_variable
var37
-1
2
Atom now(c-battery-box__lid, v-shut)
NegatedAtom now(c-battery-box__lid, v-shut)
end_variable
begin_variable
var38
-1
2
Atom now(c-cassette-locker__cassette, v-in)
NegatedAtom now(c-cassette-locker__cassette, v-in)
end_variable
begin_variable
var39
-1
2
Atom now(c-entrance-door__leaf, v-open)
NegatedAtom now(c-entrance-door__leaf, v-open)
end_variable
begin_variable
var40
-1
2
Atom now(c-entrance-door__lock, v-locked)
NegatedAtom now(c-entrance-door__lock, v-locked)
end_variable
begin_variable
var41
-1
2
Atom now(c-entrance-door__lock, v-unlocked)
NegatedAtom now(c-entrance-door__lock, v-unlocked)
end_variable
begin_variable
var42
-1
2
Atom now(c-front-locker__lid, v-open)
NegatedAtom now(c-front-locker__lid, v-open)
end_variable
begin_variable
var43
-1
2
Atom now(c-butane__explained, v-yes)
NegatedAtom now(c-butane__explained, v-yes)
end_variable
begin_variable
var44
-1
2
Atom now(c-propane__explained, v-yes)
NegatedAtom now(c-propane__explained, v-yes)
end_variable
begin_variable
var45
-1
2
Atom now(c-front-locker__lid, v-shut)
NegatedAtom now(c-front-locker__lid, v-shut)
end_variable
begin_variable
var46
-1
2
Atom now(c-breakaway-cable__cable, v-clipped)
NegatedAtom now(c-breakaway-cable__cable, v-clipped)
end_variable
begin_variable
var47
-1
2
Atom now(c-breakaway-cable__cable, v-stowed)
NegatedAtom now(c-breakaway-cable__cable, v-stowed)
end_variable
begin_variable
var48
-1
2
Atom now(c-hitch__explained, v-yes)
NegatedAtom now(c-hitch__explained, v-yes)
end_variable
begin_variable
var49
-1
2
Atom now(c-steady-front-nearside__explained, v-yes)
NegatedAtom now(c-steady-front-nearside__explained, v-yes)
end_variable
begin_variable
var50
-1
2
Atom now(c-steady-front-offside__explained, v-yes)
NegatedAtom now(c-steady-front-offside__explained, v-yes)
end_variable
begin_variable
var51
-1
2
Atom now(c-steady-rear-nearside__explained, v-yes)
NegatedAtom now(c-steady-rear-nearside__explained, v-yes)
end_variable
begin_variable
var52
-1
2
Atom now(c-steady-rear-offside__explained, v-yes)
NegatedAtom now(c-steady-rear-offside__explained, v-yes)
end_variable
begin_variable
var53
-1
2
Atom done(s-battery__connect)
Atom todo(s-battery__connect)
end_variable
begin_variable
var54
-1
2
Atom done(s-steady-front-nearside__wind_5f_up)
Atom todo(s-steady-front-nearside__wind_5f_up)
end_variable
begin_variable
var55
-1
2
Atom done(s-steady-front-offside__wind_5f_up)
Atom todo(s-steady-front-offside__wind_5f_up)
end_variable
begin_variable
var56
-1
2
Atom done(s-steady-rear-nearside__wind_5f_up)
Atom todo(s-steady-rear-nearside__wind_5f_up)
end_variable
begin_variable
var57
-1
2
Atom done(s-steady-rear-offside__wind_5f_up)
Atom todo(s-steady-rear-offside__wind_5f_up)
end_variable
begin_variable
var58
-1
2
Atom done(s-gas-regulator__connect)
Atom todo(s-gas-regulator__connect)
end_variable
begin_variable
var59
-1
2
Atom done(s-road-plug__connect)
Atom todo(s-road-plug__connect)
end_variable
begin_variable
var60
-1
2
Atom now(c-battery__checked, v-yes)
NegatedAtom now(c-battery__checked, v-yes)
end_variable
begin_variable
var61
-1
2
Atom now(c-battery__terminals, v-off)
NegatedAtom now(c-battery__terminals, v-off)
end_variable
begin_variable
var62
-1
2
Atom now(c-battery__terminals, v-on)
NegatedAtom now(c-battery__terminals, v-on)
end_variable
begin_variable
var63
-1
2
Atom now(c-gas-regulator__joint, v-made)
NegatedAtom now(c-gas-regulator__joint, v-made)
end_variable
begin_variable
var64
-1
2
Atom now(c-gas-regulator__joint, v-off)
NegatedAtom now(c-gas-regulator__joint, v-off)
end_variable
begin_variable
var65
-1
2
Atom now(c-gas-regulator__seal, v-checked)
NegatedAtom now(c-gas-regulator__seal, v-checked)
end_variable
begin_variable
var66
-1
2
Atom now(c-road-plug__plug, v-in)
NegatedAtom now(c-road-plug__plug, v-in)
end_variable
begin_variable
var67
-1
2
Atom now(c-road-plug__plug, v-stowed)
NegatedAtom now(c-road-plug__plug, v-stowed)
end_variable
begin_variable
var68
-1
2
Atom done(s-gas-regulator__leak_5f_look)
Atom todo(s-gas-regulator__leak_5f_look)
end_variable
begin_variable
var69
-1
2
Atom done(s-cylinder-valve__open)
Atom todo(s-cylinder-valve__open)
end_variable
begin_variable
var70
-1
2
Atom done(s-road-plug__lights)
Atom todo(s-road-plug__lights)
end_variable
begin_variable
var71
-1
2
Atom now(c-gas-regulator__leaks, v-none-found)
NegatedAtom now(c-gas-regulator__leaks, v-none-found)
end_variable
begin_variable
var72
-1
2
Atom now(c-road-plug__lights, v-unchecked)
NegatedAtom now(c-road-plug__lights, v-unchecked)
end_variable
begin_variable
var73
-1
2
Atom done(s-water-inlet__place_5f_pump)
Atom todo(s-water-inlet__place_5f_pump)
end_variable
begin_variable
var74
-1
2
Atom done(s-waste-outlet__clear)
Atom todo(s-waste-outlet__clear)
end_variable
begin_variable
var75
-1
2
Atom now(c-entry-step__firm, v-yes)
NegatedAtom now(c-entry-step__firm, v-yes)
end_variable
begin_variable
var76
-1
2
Atom now(c-entry-step__tread, v-out)
NegatedAtom now(c-entry-step__tread, v-out)
end_variable
begin_variable
var77
-1
2
Atom now(c-entry-step__tread, v-stowed)
NegatedAtom now(c-entry-step__tread, v-stowed)
end_variable
begin_variable
var78
-1
2
Atom done(s-jockey-wheel__wind_5f_up)
Atom todo(s-jockey-wheel__wind_5f_up)
end_variable
begin_variable
var79
-1
2
Atom done(s-steady-front-nearside__wind_5f_down)
Atom todo(s-steady-front-nearside__wind_5f_down)
end_variable
begin_variable
var80
-1
2
Atom done(s-steady-front-offside__wind_5f_down)
Atom todo(s-steady-front-offside__wind_5f_down)
end_variable
begin_variable
var81
-1
2
Atom done(s-steady-rear-nearside__wind_5f_down)
Atom todo(s-steady-rear-nearside__wind_5f_down)
end_variable
begin_variable
var82
-1
2
Atom done(s-steady-rear-offside__wind_5f_down)
Atom todo(s-steady-rear-offside__wind_5f_down)
end_variable
begin_variable
var83
-1
2
Atom now(c-jockey-wheel__leg, v-down)
NegatedAtom now(c-jockey-wheel__leg, v-down)
end_variable
begin_variable
var84
-1
2
Atom now(c-jockey-wheel__leg, v-up)
NegatedAtom now(c-jockey-wheel__leg, v-up)
end_variable
begin_variable
var85
-1
2
Atom done(s-mains-inlet__unplug)
Atom todo(s-mains-inlet__unplug)
end_variable
begin_variable
var86
-1
2
Atom done(s-cylinder-valve__shut)
Atom todo(s-cylinder-valve__shut)
end_variable
begin_variable
var87
-1
2
Atom now(c-waste-outlet__container, v-away)
NegatedAtom now(c-waste-outlet__container, v-away)
end_variable
begin_variable
var88
-1
2
Atom now(c-waste-outlet__container, v-under)
NegatedAtom now(c-waste-outlet__container, v-under)
end_variable
begin_variable
var89
-1
2
Atom now(c-steady-front-nearside__checked, v-yes)
NegatedAtom now(c-steady-front-nearside__checked, v-yes)
end_variable
begin_variable
var90
-1
2
Atom now(c-steady-front-nearside__leg, v-down)
NegatedAtom now(c-steady-front-nearside__leg, v-down)
end_variable
begin_variable
var91
-1
2
Atom now(c-steady-front-nearside__leg, v-up)
NegatedAtom now(c-steady-front-nearside__leg, v-up)
end_variable
begin_variable
var92
-1
2
Atom now(c-steady-front-offside__checked, v-yes)
NegatedAtom now(c-steady-front-offside__checked, v-yes)
end_variable
begin_variable
var93
-1
2
Atom now(c-steady-front-offside__leg, v-down)
NegatedAtom now(c-steady-front-offside__leg, v-down)
end_variable
begin_variable
var94
-1
2
Atom now(c-steady-front-offside__leg, v-up)
NegatedAtom now(c-steady-front-offside__leg, v-up)
end_variable
begin_variable
var95
-1
2
Atom now(c-steady-rear-nearside__checked, v-yes)
NegatedAtom now(c-steady-rear-nearside__checked, v-yes)
end_variable
begin_variable
var96
-1
2
Atom now(c-steady-rear-nearside__leg, v-down)
NegatedAtom now(c-steady-rear-nearside__leg, v-down)
end_variable
begin_variable
var97
-1
2
Atom done(s-battery-selector__select)
Atom todo(s-battery-selector__select)
end_variable
begin_variable
var98
-1
2
Atom done(s-co-alarm__test)
Atom todo(s-co-alarm__test)
end_variable
begin_variable
var99
-1
2
Atom done(s-fridge__for_5f_road)
Atom todo(s-fridge__for_5f_road)
end_variable
begin_variable
var100
-1
2
Atom done(s-frost-valve__set)
Atom todo(s-frost-valve__set)
end_variable
begin_variable
var101
-1
2
Atom done(s-gas-manifold__open)
Atom todo(s-gas-manifold__open)
end_variable
begin_variable
var102
-1
2
Atom done(s-space-heater__gas_5f_off)
Atom todo(s-space-heater__gas_5f_off)
end_variable
begin_variable
var103
-1
2
Atom now(c-battery-selector__explained, v-yes)
NegatedAtom now(c-battery-selector__explained, v-yes)
end_variable
begin_variable
var104
-1
2
Atom now(c-battery-selector__source, v-leisure)
NegatedAtom now(c-battery-selector__source, v-leisure)
end_variable
begin_variable
var105
-1
2
Atom now(c-co-alarm__tested, v-yes)
NegatedAtom now(c-co-alarm__tested, v-yes)
end_variable
begin_variable
var106
-1
2
Atom now(c-frost-valve__plunger, v-open)
NegatedAtom now(c-frost-valve__plunger, v-open)
end_variable
begin_variable
var107
-1
2
Atom now(c-frost-valve__plunger, v-set)
NegatedAtom now(c-frost-valve__plunger, v-set)
end_variable
begin_variable
var108
-1
2
Atom done(s-control-panel__master_5f_on)
Atom todo(s-control-panel__master_5f_on)
end_variable
begin_variable
var109
-1
2
Atom done(s-co-alarm__act)
Atom todo(s-co-alarm__act)
end_variable
begin_variable
var110
-1
2
Atom now(c-co-alarm__explained, v-yes)
NegatedAtom now(c-co-alarm__explained, v-yes)
end_variable
begin_variable
var111
-1
2
Atom now(c-steady-rear-nearside__leg, v-up)
NegatedAtom now(c-steady-rear-nearside__leg, v-up)
end_variable
begin_variable
var112
-1
2
Atom done(s-jockey-wheel__show)
Atom todo(s-jockey-wheel__show)
end_variable
begin_variable
var113
-1
2
Atom now(c-jockey-wheel__explained, v-yes)
NegatedAtom now(c-jockey-wheel__explained, v-yes)
end_variable
begin_variable
var114
-1
2
Atom now(c-steady-rear-offside__checked, v-yes)
NegatedAtom now(c-steady-rear-offside__checked, v-yes)
end_variable
begin_variable
var115
-1
2
Atom done(s-drain-valve__shut)
Atom todo(s-drain-valve__shut)
end_variable
begin_variable
var116
-1
2
Atom done(s-rooflight__open)
Atom todo(s-rooflight__open)
end_variable
begin_variable
var117
-1
2
Atom done(s-rooflight__shut)
Atom todo(s-rooflight__shut)
end_variable
begin_variable
var118
-1
2
Atom done(s-space-heater__mains_5f_off)
Atom todo(s-space-heater__mains_5f_off)
end_variable
begin_variable
var119
-1
2
Atom done(s-water-heater__gas_5f_off)
Atom todo(s-water-heater__gas_5f_off)
end_variable
begin_variable
var120
-1
2
Atom done(s-water-heater__switch_5f_off)
Atom todo(s-water-heater__switch_5f_off)
end_variable
begin_variable
var121
-1
2
Atom now(c-steady-rear-offside__leg, v-down)
NegatedAtom now(c-steady-rear-offside__leg, v-down)
end_variable
begin_variable
var122
-1
2
Atom done(s-control-panel__pump_5f_off)
Atom todo(s-control-panel__pump_5f_off)
end_variable
begin_variable
var123
-1
2
Atom done(s-mains-unit__switch_5f_on)
Atom todo(s-mains-unit__switch_5f_on)
end_variable
begin_variable
var124
-1
2
Atom now(c-rooflight__lid, v-open)
NegatedAtom now(c-rooflight__lid, v-open)
end_variable
begin_variable
var125
-1
2
Atom now(c-mains-unit__rcd, v-on)
NegatedAtom now(c-mains-unit__rcd, v-on)
end_variable
begin_variable
var126
-1
2
Atom now(c-mains-unit__tested, v-yes)
NegatedAtom now(c-mains-unit__tested, v-yes)
end_variable
begin_variable
var127
-1
2
Atom now(c-rooflight__lid, v-shut)
NegatedAtom now(c-rooflight__lid, v-shut)
end_variable
begin_variable
var128
-1
2
Atom done(s-charger__on)
Atom todo(s-charger__on)
end_variable
begin_variable
var129
-1
2
Atom now(c-charger__switch, v-off)
NegatedAtom now(c-charger__switch, v-off)
end_variable
begin_variable
var130
-1
2
Atom now(c-charger__switch, v-on)
NegatedAtom now(c-charger__switch, v-on)
end_variable
begin_variable
var131
-1
2
Atom done(s-fridge__on_5f_mains)
Atom todo(s-fridge__on_5f_mains)
end_variable
begin_variable
var132
-1
2
Atom now(c-fridge__explained, v-yes)
NegatedAtom now(c-fridge__explained, v-yes)
end_variable
begin_variable
var133
-1
2
Atom now(c-steady-rear-offside__leg, v-up)
NegatedAtom now(c-steady-rear-offside__leg, v-up)
end_variable
begin_variable
var134
-1
2
Atom done(s-blown-air__run)
Atom todo(s-blown-air__run)
end_variable
begin_variable
var135
-1
2
Atom done(s-blown-air__stop)
Atom todo(s-blown-air__stop)
end_variable
begin_variable
var136
-1
2
Atom done(s-gas-manifold__shut)
Atom todo(s-gas-manifold__shut)
end_variable
begin_variable
var137
-1
2
Atom done(s-space-heater__mains)
Atom todo(s-space-heater__mains)
end_variable
begin_variable
var138
-1
2
Atom done(s-water-inlet__stow_5f_pump)
Atom todo(s-water-inlet__stow_5f_pump)
end_variable
begin_variable
var139
-1
2
Atom now(c-water-heater__water, v-empty)
NegatedAtom now(c-water-heater__water, v-empty)
end_variable
begin_variable
var140
-1
2
Atom now(c-water-heater__water, v-full)
NegatedAtom now(c-water-heater__water, v-full)
end_variable
begin_variable
var141
-1
2
Atom now(c-gas-manifold__taps, v-open)
NegatedAtom now(c-gas-manifold__taps, v-open)
end_variable
begin_variable
var142
-1
2
Atom now(c-gas-manifold__taps, v-shut)
NegatedAtom now(c-gas-manifold__taps, v-shut)
end_variable
begin_variable
var143
-1
2
Atom now(c-space-heater__element, v-on)
NegatedAtom now(c-space-heater__element, v-on)
end_variable
begin_variable
var144
-1
2
Atom now(c-water-inlet__container, v-full)
NegatedAtom now(c-water-inlet__container, v-full)
end_variable
begin_variable
var145
-1
2
Atom done(s-space-heater__light_5f_gas)
Atom todo(s-space-heater__light_5f_gas)
end_variable
begin_variable
var146
-1
2
Atom now(c-mains-inlet__checked, v-yes)
NegatedAtom now(c-mains-inlet__checked, v-yes)
end_variable
begin_variable
var147
-1
2
Atom now(c-space-heater__element, v-off)
NegatedAtom now(c-space-heater__element, v-off)
end_variable
begin_variable
var148
-1
2
Atom now(c-mains-inlet__lead, v-plugged)
NegatedAtom now(c-mains-inlet__lead, v-plugged)
end_variable
begin_variable
var149
-1
2
Atom now(c-mains-inlet__lead, v-stowed)
NegatedAtom now(c-mains-inlet__lead, v-stowed)
end_variable
begin_variable
var150
-1
2
Atom now(c-cylinder-valve__valve, v-open)
NegatedAtom now(c-cylinder-valve__valve, v-open)
end_variable
begin_variable
var151
-1
2
Atom done(s-fridge__on_5f_gas)
Atom todo(s-fridge__on_5f_gas)
end_variable
begin_variable
var152
-1
2
Atom now(c-space-heater__flame, v-lit)
NegatedAtom now(c-space-heater__flame, v-lit)
end_variable
begin_variable
var153
-1
2
Atom now(c-space-heater__flame, v-off)
NegatedAtom now(c-space-heater__flame, v-off)
end_variable
begin_variable
var154
-1
2
Atom now(c-cylinder-valve__valve, v-shut)
NegatedAtom now(c-cylinder-valve__valve, v-shut)
end_variable
begin_variable
var155
-1
2
Atom done(s-control-panel__pump_5f_on)
Atom todo(s-control-panel__pump_5f_on)
end_variable
begin_variable
var156
-1
2
Atom done(s-water-heater__heat_5f_mains)
Atom todo(s-water-heater__heat_5f_mains)
end_variable
begin_variable
var157
-1
2
Atom now(c-blown-air__fan, v-on)
NegatedAtom now(c-blown-air__fan, v-on)
end_variable
begin_variable
var158
-1
2
Atom done(s-control-panel__master_5f_off)
Atom todo(s-control-panel__master_5f_off)
end_variable
begin_variable
var159
-1
2
Atom now(c-fridge__source, v-gas)
NegatedAtom now(c-fridge__source, v-gas)
end_variable
begin_variable
var160
-1
2
Atom now(c-water-heater__tried, v-yes)
NegatedAtom now(c-water-heater__tried, v-yes)
end_variable
begin_variable
var161
-1
2
Atom running(w-water-heater__heating)
NegatedAtom running(w-water-heater__heating)
end_variable
begin_variable
var162
-1
2
Atom now(c-blown-air__fan, v-off)
NegatedAtom now(c-blown-air__fan, v-off)
end_variable
begin_variable
var163
-1
2
Atom now(c-water-heater__element, v-off)
NegatedAtom now(c-water-heater__element, v-off)
end_variable
begin_variable
var164
-1
2
Atom now(c-water-heater__element, v-on)
NegatedAtom now(c-water-heater__element, v-on)
end_variable
begin_variable
var165
-1
2
Atom now(c-control-panel__in_5f_use, v-yes)
NegatedAtom now(c-control-panel__in_5f_use, v-yes)
end_variable
begin_variable
var166
-1
2
Atom now(c-control-panel__master, v-on)
NegatedAtom now(c-control-panel__master, v-on)
end_variable
begin_variable
var167
-1
2
Atom done(s-water-heater__fill)
Atom todo(s-water-heater__fill)
end_variable
begin_variable
var168
-1
2
Atom running(w-water-heater__filling)
NegatedAtom running(w-water-heater__filling)
end_variable
begin_variable
var169
-1
2
Atom done(s-water-heater__gas_5f_on)
Atom todo(s-water-heater__gas_5f_on)
end_variable
begin_variable
var170
-1
2
Atom done(s-water-heater__drain)
Atom todo(s-water-heater__drain)
end_variable
begin_variable
var171
-1
2
Atom done(s-water-heater__bleed)
Atom todo(s-water-heater__bleed)
end_variable
begin_variable
var172
-1
2
Atom now(c-control-panel__pump, v-off)
NegatedAtom now(c-control-panel__pump, v-off)
end_variable
begin_variable
var173
-1
2
Atom now(c-water-inlet__pickup, v-stowed)
NegatedAtom now(c-water-inlet__pickup, v-stowed)
end_variable
begin_variable
var174
-1
2
Atom now(c-water-inlet__pickup, v-under-water)
NegatedAtom now(c-water-inlet__pickup, v-under-water)
end_variable
begin_variable
var175
-1
2
Atom running(w-water-heater__draining)
NegatedAtom running(w-water-heater__draining)
end_variable
begin_variable
var176
-1
2
Atom now(c-control-panel__pump, v-on)
NegatedAtom now(c-control-panel__pump, v-on)
end_variable
begin_variable
var177
-1
2
Atom now(c-water-heater__flame, v-lit)
NegatedAtom now(c-water-heater__flame, v-lit)
end_variable
begin_variable
var178
-1
2
Atom done(s-drain-valve__open)
Atom todo(s-drain-valve__open)
end_variable
begin_variable
var179
-1
2
Atom now(c-water-heater__flame, v-off)
NegatedAtom now(c-water-heater__flame, v-off)
end_variable
begin_variable
var180
-1
2
Atom now(c-drain-valve__lever, v-shut)
NegatedAtom now(c-drain-valve__lever, v-shut)
end_variable
begin_variable
var181
-1
2
Atom done(s-water-heater__cool)
Atom todo(s-water-heater__cool)
end_variable
begin_variable
var182
-1
2
Atom running(w-water-heater__rinsing)
NegatedAtom running(w-water-heater__rinsing)
end_variable
begin_variable
var183
-1
2
Atom now(c-water-heater__heat, v-hot)
NegatedAtom now(c-water-heater__heat, v-hot)
end_variable
begin_variable
var184
-1
2
Atom now(c-drain-valve__lever, v-open)
NegatedAtom now(c-drain-valve__lever, v-open)
end_variable
begin_variable
var185
-1
2
Atom now(c-water-heater__heat, v-cold)
NegatedAtom now(c-water-heater__heat, v-cold)
end_variable
begin_variable
var186
-1
2
Atom now(c-water-heater__heat, v-cooling)
NegatedAtom now(c-water-heater__heat, v-cooling)
end_variable
begin_variable
var187
-1
2
Atom now(c-kitchen-tap__hot, v-shut)
NegatedAtom now(c-kitchen-tap__hot, v-shut)
end_variable
begin_variable
var188
-1
2
Atom done(s-hitch__couple_5f_up)
Atom todo(s-hitch__couple_5f_up)
end_variable
begin_variable
var189
-1
2
Atom now(c-hitch__head, v-coupled)
NegatedAtom now(c-hitch__head, v-coupled)
end_variable
begin_variable
var190
-1
2
Atom now(c-hitch__head, v-uncoupled)
NegatedAtom now(c-hitch__head, v-uncoupled)
end_variable
begin_variable
var191
-1
2
Atom done(s-van__last_5f_look)
Atom todo(s-van__last_5f_look)
end_variable
begin_variable
var192
-1
2
Atom now(c-van__round, v-begun)
NegatedAtom now(c-van__round, v-begun)
end_variable
begin_variable
var193
-1
2
Atom now(c-van__round, v-over)
NegatedAtom now(c-van__round, v-over)
end_variable
begin_variable
var194
-1
2
Atom done(s-wheel-offside__tyres)
Atom todo(s-wheel-offside__tyres)
end_variable
begin_variable
var195
-1
2
Atom done(s-wheel-offside__nuts)
Atom todo(s-wheel-offside__nuts)
end_variable
begin_variable
var196
-1
2
Atom done(s-van__loading)
Atom todo(s-van__loading)
end_variable
begin_variable
var197
-1
2
Atom done(s-road-plug__show)
Atom todo(s-road-plug__show)
end_variable
begin_variable
var198
-1
2
Atom done(s-flush-filler__fill)
Atom todo(s-flush-filler__fill)
end_variable
begin_variable
var199
-1
2
Atom now(c-flush-filler__tank, v-filled)
NegatedAtom now(c-flush-filler__tank, v-filled)
end_variable
begin_variable
var200
-1
2
Atom now(c-gas-regulator__seal, v-unchecked)
NegatedAtom now(c-gas-regulator__seal, v-unchecked)
end_variable
begin_variable
var201
-1
2
Atom done(s-propane__label)
Atom todo(s-propane__label)
end_variable
begin_variable
var202
-1
2
Atom done(s-butane__secure)
Atom todo(s-butane__secure)
end_variable
begin_variable
var203
-1
2
Atom done(s-butane__label)
Atom todo(s-butane__label)
end_variable
begin_variable
var204
-1
2
Atom done(s-smoke-alarm__test)
Atom todo(s-smoke-alarm__test)
end_variable
begin_variable
var205
-1
2
Atom now(c-smoke-alarm__tested, v-yes)
NegatedAtom now(c-smoke-alarm__tested, v-yes)
end_variable
begin_variable
var206
-1
2
Atom done(s-van__service)
Atom todo(s-van__service)
end_variable
begin_variable
var207
-1
2
Atom now(c-van__dates, v-told)
NegatedAtom now(c-van__dates, v-told)
end_variable
begin_variable
var208
-1
2
Atom done(s-van__papers)
Atom todo(s-van__papers)
end_variable
begin_variable
var209
-1
2
Atom now(c-van__papers, v-given)
NegatedAtom now(c-van__papers, v-given)
end_variable
begin_variable
var210
-1
2
Atom done(s-van__questions)
Atom todo(s-van__questions)
end_variable
begin_variable
var211
-1
2
Atom done(s-rooflight__show)
Atom todo(s-rooflight__show)
end_variable
begin_variable
var212
-1
2
Atom done(s-lounge-window__show)
Atom todo(s-lounge-window__show)
end_variable
begin_variable
var213
-1
2
Atom done(s-lounge-bed__show)
Atom todo(s-lounge-bed__show)
end_variable
begin_variable
var214
-1
2
Atom done(s-hob__lift_5f_lid)
Atom todo(s-hob__lift_5f_lid)
end_variable
begin_variable
var215
-1
2
Atom done(s-fire-blanket__show)
Atom todo(s-fire-blanket__show)
end_variable
begin_variable
var216
-1
2
Atom now(c-fire-blanket__shown, v-yes)
NegatedAtom now(c-fire-blanket__shown, v-yes)
end_variable
begin_variable
var217
-1
2
Atom done(s-extinguisher__show)
Atom todo(s-extinguisher__show)
end_variable
begin_variable
var218
-1
2
Atom now(c-extinguisher__shown, v-yes)
NegatedAtom now(c-extinguisher__shown, v-yes)
end_variable
begin_variable
var219
-1
2
Atom done(s-entrance-door__locks)
Atom todo(s-entrance-door__locks)
end_variable
begin_variable
var220
-1
2
Atom done(s-blinds__show)
Atom todo(s-blinds__show)
end_variable
begin_variable
var221
-1
2
Atom now(c-water-heater__tried, v-no)
NegatedAtom now(c-water-heater__tried, v-no)
end_variable
begin_variable
var222
-1
2
Atom done(s-mains-unit__polarity)
Atom todo(s-mains-unit__polarity)
end_variable
begin_variable
var223
-1
2
Atom done(s-mains-unit__breakers)
Atom todo(s-mains-unit__breakers)
end_variable
begin_variable
var224
-1
2
Atom done(s-breakaway-cable__show)
Atom todo(s-breakaway-cable__show)
end_variable
begin_variable
var225
-1
2
Atom done(s-hitch__pads)
Atom todo(s-hitch__pads)
end_variable
begin_variable
var226
-1
2
Atom done(s-handbrake__show)
Atom todo(s-handbrake__show)
end_variable
begin_variable
var227
-1
2
Atom now(c-hitch__coupling, v-not-begun)
NegatedAtom now(c-hitch__coupling, v-not-begun)
end_variable
begin_variable
var228
-1
2
Atom now(c-hitch__coupling, v-finished)
NegatedAtom now(c-hitch__coupling, v-finished)
end_variable
begin_variable
var229
-1
2
Atom done(s-water-heater__hot)
Atom todo(s-water-heater__hot)
end_variable
begin_variable
var230
-1
2
Atom now(c-water-heater__shown, v-yes)
NegatedAtom now(c-water-heater__shown, v-yes)
end_variable
begin_variable
var231
-1
2
Atom now(c-water-heater__shown, v-no)
NegatedAtom now(c-water-heater__shown, v-no)
end_variable
begin_variable
var232
-1
2
Atom done(s-washbasin__show)
Atom todo(s-washbasin__show)
end_variable
begin_variable
var233
-1
2
Atom done(s-shower__show)
Atom todo(s-shower__show)
end_variable
begin_variable
var234
-1
2
Atom done(s-toilet__use)
Atom todo(s-toilet__use)
end_variable
begin_variable
var235
-1
2
Atom now(c-toilet__explained, v-yes)
NegatedAtom now(c-toilet__explained, v-yes)
end_variable
begin_variable
var236
-1
2
Atom done(s-toilet__clean)
Atom todo(s-toilet__clean)
end_variable
begin_variable
var237
-1
2
Atom now(c-control-panel__master, v-off)
NegatedAtom now(c-control-panel__master, v-off)
end_variable
begin_variable
var238
-1
2
Atom now(c-fridge__source, v-off)
NegatedAtom now(c-fridge__source, v-off)
end_variable
begin_variable
var239
-1
2
Atom done(s-butane__change)
Atom todo(s-butane__change)
end_variable
begin_variable
var240
-1
2
Atom now(c-space-heater__explained, v-yes)
NegatedAtom now(c-space-heater__explained, v-yes)
end_variable
begin_variable
var241
-1
2
Atom done(s-space-heater__thermostat)
Atom todo(s-space-heater__thermostat)
end_variable
begin_variable
var242
-1
2
Atom done(s-hob__shut_5f_lid)
Atom todo(s-hob__shut_5f_lid)
end_variable
begin_variable
var243
-1
2
Atom now(c-hob__lid, v-shut)
NegatedAtom now(c-hob__lid, v-shut)
end_variable
begin_variable
var244
-1
2
Atom now(c-hob__lid, v-up)
NegatedAtom now(c-hob__lid, v-up)
end_variable
begin_variable
var245
-1
2
Atom done(s-hob__light)
Atom todo(s-hob__light)
end_variable
begin_variable
var246
-1
2
Atom running(w-hob__cooling)
NegatedAtom running(w-hob__cooling)
end_variable
begin_variable
var247
-1
2
Atom now(c-hob__rings, v-cool)
NegatedAtom now(c-hob__rings, v-cool)
end_variable
begin_variable
var248
-1
2
Atom now(c-hob__rings, v-hot)
NegatedAtom now(c-hob__rings, v-hot)
end_variable
begin_variable
var249
-1
2
Atom now(c-fridge__source, v-12v)
NegatedAtom now(c-fridge__source, v-12v)
end_variable
begin_variable
var250
-1
2
Atom done(s-kitchen-tap__cold)
Atom todo(s-kitchen-tap__cold)
end_variable
begin_variable
var251
-1
2
Atom done(s-control-panel__lights_5f_on)
Atom todo(s-control-panel__lights_5f_on)
end_variable
begin_variable
var252
-1
2
Atom now(c-control-panel__lights, v-off)
NegatedAtom now(c-control-panel__lights, v-off)
end_variable
begin_variable
var253
-1
2
Atom done(s-control-panel__levels)
Atom todo(s-control-panel__levels)
end_variable
begin_variable
var254
-1
2
Atom done(s-battery__care)
Atom todo(s-battery__care)
end_variable
begin_variable
var255
-1
2
Atom done(s-awning-rail__show)
Atom todo(s-awning-rail__show)
end_variable
begin_variable
var256
0
2
Atom new-axiom@0()
NegatedAtom new-axiom@0()
end_variable
0
begin_state
12
1
1
1
1
1
1
1
1
1
1
1
1
1
1
0
1
1
1
1
1
1
0
1
1
0
1
1
1
1
1
1
1
1
1
1
1
0
0
1
0
1
1
1
1
0
1
0
1
1
1
1
1
1
1
1
1
1
1
1
1
0
1
1
0
1
1
0
1
1
1
1
0
1
1
1
1
0
1
1
1
1
1
0
1
1
1
0
1
1
1
0
1
1
0
1
1
1
1
1
1
1
1
1
1
1
0
1
1
1
1
0
1
1
1
1
1
1
1
1
1
1
1
1
1
1
1
0
1
0
1
1
1
0
1
1
1
1
1
0
1
1
0
1
1
1
1
0
1
0
1
1
1
0
0
1
1
1
1
1
1
1
0
0
1
1
1
1
1
1
1
1
0
0
1
1
1
1
1
0
1
1
1
1
0
0
1
0
1
1
0
1
1
1
1
1
1
1
1
1
0
1
1
1
1
1
1
1
1
1
1
1
1
1
1
1
1
1
1
1
1
0
1
1
1
1
1
0
1
1
1
0
1
1
1
1
1
0
0
1
1
1
1
0
1
1
1
0
1
1
1
1
0
1
1
1
1
end_state
begin_goal
1
256 0
end_goal
745
begin_operator
do-awning-rail__show 
3
0 10
190 0
192 0
1
0 255 1 0
34
end_operator
begin_operator
do-battery-box__open 
2
0 21
192 0
3
0 2 1 0
0 36 -1 0
0 37 -1 1
32
end_operator
begin_operator
do-battery-box__shut 
2
0 21
192 0
3
0 3 1 0
0 36 -1 1
0 37 -1 0
14
end_operator
begin_operator
do-battery-selector__select 
16
0 3
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 97 1 0
0 103 -1 0
0 104 -1 0
32
end_operator
begin_operator
do-battery__care 
3
0 21
36 0
192 0
1
0 254 1 0
33
end_operator
begin_operator
do-battery__connect 
4
0 21
36 0
129 0
192 0
4
0 53 1 0
0 60 -1 0
0 61 -1 1
0 62 -1 0
64
end_operator
begin_operator
do-blinds__show 
16
0 0
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
1
0 220 1 0
45
end_operator
begin_operator
do-blown-air__run 
23
0 2
37 0
103 0
104 0
60 0
62 0
38 0
165 0
166 0
39 0
41 0
75 0
76 0
152 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 134 1 0
0 162 -1 1
0 157 -1 0
44
end_operator
begin_operator
do-blown-air__stop 
22
0 2
37 0
103 0
104 0
60 0
62 0
38 0
165 0
166 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 135 1 0
0 162 -1 0
0 157 0 1
10
end_operator
begin_operator
do-breakaway-cable__clip 
3
0 6
189 0
192 0
3
0 27 1 0
0 46 -1 0
0 47 -1 1
34
end_operator
begin_operator
do-breakaway-cable__show 
4
0 6
47 0
48 0
192 0
1
0 224 1 0
45
end_operator
begin_operator
do-butane__change 
5
0 9
42 0
71 0
65 0
192 0
1
0 239 1 0
33
end_operator
begin_operator
do-butane__label 
5
0 9
43 0
42 0
200 0
192 0
1
0 203 1 0
7
end_operator
begin_operator
do-butane__secure 
5
0 9
43 0
42 0
200 0
192 0
1
0 202 1 0
50
end_operator
begin_operator
do-butane__show 
3
0 9
42 0
192 0
3
0 30 1 0
0 43 -1 0
0 44 -1 0
35
end_operator
begin_operator
do-cassette-locker__put_5f_back 
2
0 15
192 0
2
0 4 1 0
0 38 -1 0
43
end_operator
begin_operator
do-cassette-locker__take_5f_out 
2
0 15
192 0
2
0 5 1 0
0 38 -1 1
66
end_operator
begin_operator
do-charger__on 
23
0 3
37 0
60 0
61 1
62 0
38 0
39 0
41 0
75 0
76 0
146 0
148 0
125 0
126 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 128 1 0
0 129 -1 1
0 130 -1 0
38
end_operator
begin_operator
do-co-alarm__act 
17
0 0
37 0
38 0
105 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
2
0 109 1 0
0 110 -1 0
24
end_operator
begin_operator
do-co-alarm__test 
16
0 0
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
2
0 98 1 0
0 105 -1 0
42
end_operator
begin_operator
do-control-panel__levels 
23
0 3
37 0
103 0
104 0
60 0
62 0
38 0
129 0
165 0
166 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
1
0 253 1 0
45
end_operator
begin_operator
do-control-panel__lights_5f_on 
22
0 3
37 0
103 0
104 0
60 0
62 0
38 0
165 0
166 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
2
0 251 1 0
0 252 -1 1
40
end_operator
begin_operator
do-control-panel__master_5f_off 
23
0 3
37 0
162 0
38 0
172 0
39 0
41 0
75 0
76 0
147 0
153 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
179 0
168 1
182 1
5
0 158 1 0
0 165 -1 1
0 252 -1 0
0 237 -1 0
0 166 -1 1
23
end_operator
begin_operator
do-control-panel__master_5f_on 
20
0 3
37 0
103 0
104 0
60 0
62 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
4
0 108 1 0
0 165 -1 0
0 237 -1 1
0 166 -1 0
37
end_operator
begin_operator
do-control-panel__pump_5f_off 
18
0 3
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
168 1
182 1
3
0 122 1 0
0 172 -1 0
0 176 -1 1
9
end_operator
begin_operator
do-control-panel__pump_5f_on 
26
0 3
37 0
103 0
104 0
60 0
62 0
38 0
165 0
166 0
184 1
39 0
41 0
75 0
76 0
106 1
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
173 1
175 1
3
0 155 1 0
0 172 -1 1
0 176 -1 0
40
end_operator
begin_operator
do-cylinder-valve__open 
7
0 23
42 0
63 0
64 1
65 0
189 1
192 0
3
0 69 1 0
0 150 -1 0
0 154 -1 1
42
end_operator
begin_operator
do-cylinder-valve__shut 
6
0 23
159 1
42 0
152 1
192 0
177 1
3
0 86 1 0
0 150 -1 1
0 154 -1 0
25
end_operator
begin_operator
do-drain-valve__open 
24
0 0
37 0
38 0
172 0
176 1
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
164 1
177 1
186 1
183 1
168 1
182 1
3
0 178 1 0
0 184 -1 0
0 180 0 1
17
end_operator
begin_operator
do-drain-valve__shut 
17
0 0
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
175 1
3
0 115 1 0
0 184 -1 1
0 180 -1 0
40
end_operator
begin_operator
do-entrance-door__lock_5f_up 
2
0 13
192 0
4
0 6 1 0
0 39 -1 1
0 40 -1 0
0 41 -1 1
17
end_operator
begin_operator
do-entrance-door__locks 
16
0 13
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
1
0 219 1 0
59
end_operator
begin_operator
do-entrance-door__unlock 
2
0 13
192 0
4
0 7 1 0
0 39 -1 0
0 40 -1 1
0 41 -1 0
23
end_operator
begin_operator
do-entry-step__pull_5f_out 
3
0 13
189 1
192 0
4
0 32 1 0
0 75 -1 0
0 76 -1 0
0 77 -1 1
21
end_operator
begin_operator
do-entry-step__stow 
3
0 13
40 0
192 0
4
0 31 1 0
0 75 -1 1
0 76 -1 1
0 77 -1 0
14
end_operator
begin_operator
do-extinguisher__show 
16
0 3
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
2
0 217 1 0
0 218 -1 0
34
end_operator
begin_operator
do-fire-blanket__show 
16
0 4
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
2
0 215 1 0
0 216 -1 0
32
end_operator
begin_operator
do-flush-filler__fill 
2
0 16
192 0
2
0 198 1 0
0 199 -1 0
67
end_operator
begin_operator
do-fridge-vents__take_5f_off 
2
0 17
192 0
4
0 8 1 0
0 14 -1 0
0 15 -1 1
0 16 -1 0
41
end_operator
begin_operator
do-fridge__for_5f_road 
16
0 4
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
4
0 99 1 0
0 249 -1 0
0 159 -1 1
0 238 -1 1
42
end_operator
begin_operator
do-fridge__on_5f_gas 
35
0 4
37 0
103 0
104 0
60 0
62 0
38 0
110 0
105 0
165 0
166 0
150 0
154 1
39 0
41 0
75 0
76 0
14 0
15 1
16 0
132 0
141 0
142 1
63 0
71 0
189 1
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
4
0 151 1 0
0 249 -1 1
0 159 -1 0
0 238 -1 1
48
end_operator
begin_operator
do-fridge__on_5f_mains 
21
0 4
37 0
38 0
130 0
39 0
41 0
75 0
76 0
146 0
148 0
125 0
126 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
5
0 131 1 0
0 132 -1 0
0 249 -1 1
0 159 -1 1
0 238 -1 1
42
end_operator
begin_operator
do-front-locker__open 
2
0 8
192 0
3
0 9 1 0
0 42 -1 0
0 45 -1 1
40
end_operator
begin_operator
do-front-locker__shut 
2
0 8
192 0
3
0 10 1 0
0 42 -1 1
0 45 -1 0
19
end_operator
begin_operator
do-frost-valve__set 
16
0 0
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 100 1 0
0 106 -1 1
0 107 -1 0
41
end_operator
begin_operator
do-gas-manifold__open 
17
0 2
37 0
38 0
39 0
41 0
75 0
76 0
71 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 101 1 0
0 141 -1 0
0 142 -1 1
54
end_operator
begin_operator
do-gas-manifold__shut 
19
0 2
37 0
38 0
39 0
41 0
75 0
76 0
159 1
152 1
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
177 1
3
0 136 1 0
0 141 -1 1
0 142 -1 0
21
end_operator
begin_operator
do-gas-regulator__connect 
6
0 23
43 0
154 0
42 0
44 0
192 0
5
0 58 1 0
0 63 -1 0
0 64 -1 1
0 65 -1 0
0 200 -1 1
96
end_operator
begin_operator
do-gas-regulator__leak_5f_look 
5
0 23
150 0
42 0
63 0
192 0
2
0 68 1 0
0 71 -1 0
64
end_operator
begin_operator
do-handbrake__show 
3
0 7
190 0
192 0
1
0 226 1 0
64
end_operator
begin_operator
do-heater-flue-room__take_5f_off 
3
0 11
17 0
192 0
4
0 19 1 0
0 21 -1 0
0 22 -1 1
0 23 -1 0
22
end_operator
begin_operator
do-heater-flue-water__show 
2
0 20
192 0
3
0 11 1 0
0 17 -1 0
0 18 -1 0
29
end_operator
begin_operator
do-heater-flue-water__take_5f_off 
3
0 20
18 0
192 0
4
0 20 1 0
0 24 -1 0
0 25 -1 1
0 26 -1 0
22
end_operator
begin_operator
do-hitch__couple_5f_up 
29
0 6
47 1
150 1
154 0
40 0
76 1
77 0
159 1
45 0
48 0
113 0
83 0
148 1
149 0
72 1
67 1
124 1
90 1
91 0
93 1
94 0
96 1
111 0
121 1
133 0
192 0
193 1
87 0
173 0
5
0 188 1 0
0 228 -1 1
0 227 -1 1
0 189 -1 0
0 190 -1 1
181
end_operator
begin_operator
do-hitch__couple_5f_up 
28
0 6
47 1
150 1
154 0
40 0
76 1
77 0
159 1
45 0
48 0
113 0
83 0
148 1
149 0
72 1
124 1
90 1
91 0
93 1
94 0
96 1
111 0
121 1
133 0
192 0
193 1
87 0
173 0
5
0 188 1 0
0 228 -1 1
0 227 -1 1
0 189 -1 0
0 190 -1 1
181
end_operator
begin_operator
do-hitch__couple_5f_up 
28
0 6
47 1
150 1
154 0
40 0
76 1
77 0
159 1
45 0
48 0
113 0
83 0
148 1
149 0
67 1
124 1
90 1
91 0
93 1
94 0
96 1
111 0
121 1
133 0
192 0
193 1
87 0
173 0
5
0 188 1 0
0 228 -1 1
0 227 -1 1
0 189 -1 0
0 190 -1 1
181
end_operator
begin_operator
do-hitch__couple_5f_up 
27
0 6
47 1
150 1
154 0
40 0
76 1
77 0
159 1
45 0
48 0
113 0
83 0
148 1
149 0
124 1
90 1
91 0
93 1
94 0
96 1
111 0
121 1
133 0
192 0
193 1
87 0
173 0
5
0 188 1 0
0 228 -1 1
0 227 -1 1
0 189 -1 0
0 190 -1 1
181
end_operator
begin_operator
do-hitch__couple_5f_up 
28
0 6
150 1
154 0
40 0
76 1
77 0
159 1
45 0
48 0
113 0
83 0
148 1
149 0
72 1
67 1
124 1
90 1
91 0
93 1
94 0
96 1
111 0
121 1
133 0
192 0
193 1
87 0
173 0
5
0 188 1 0
0 228 -1 1
0 227 -1 1
0 189 -1 0
0 190 -1 1
181
end_operator
begin_operator
do-hitch__couple_5f_up 
27
0 6
150 1
154 0
40 0
76 1
77 0
159 1
45 0
48 0
113 0
83 0
148 1
149 0
72 1
124 1
90 1
91 0
93 1
94 0
96 1
111 0
121 1
133 0
192 0
193 1
87 0
173 0
5
0 188 1 0
0 228 -1 1
0 227 -1 1
0 189 -1 0
0 190 -1 1
181
end_operator
begin_operator
do-hitch__couple_5f_up 
27
0 6
150 1
154 0
40 0
76 1
77 0
159 1
45 0
48 0
113 0
83 0
148 1
149 0
67 1
124 1
90 1
91 0
93 1
94 0
96 1
111 0
121 1
133 0
192 0
193 1
87 0
173 0
5
0 188 1 0
0 228 -1 1
0 227 -1 1
0 189 -1 0
0 190 -1 1
181
end_operator
begin_operator
do-hitch__couple_5f_up 
26
0 6
150 1
154 0
40 0
76 1
77 0
159 1
45 0
48 0
113 0
83 0
148 1
149 0
124 1
90 1
91 0
93 1
94 0
96 1
111 0
121 1
133 0
192 0
193 1
87 0
173 0
5
0 188 1 0
0 228 -1 1
0 227 -1 1
0 189 -1 0
0 190 -1 1
181
end_operator
begin_operator
do-hitch__pads 
4
0 6
48 0
190 0
192 0
1
0 225 1 0
34
end_operator
begin_operator
do-hitch__show_5f_head 
3
0 6
190 0
192 0
2
0 28 1 0
0 48 -1 0
58
end_operator
begin_operator
do-hob__lift_5f_lid 
17
0 2
37 0
38 0
39 0
41 0
75 0
76 0
124 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 214 1 0
0 243 -1 1
0 244 -1 0
13
end_operator
begin_operator
do-hob__light 
28
0 2
37 0
38 0
110 0
105 0
150 0
39 0
41 0
75 0
76 0
218 0
216 0
141 0
63 0
71 0
243 1
244 0
124 0
205 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
4
0 245 1 0
0 247 -1 1
0 248 -1 0
0 246 1 0
65
end_operator
begin_operator
do-hob__shut_5f_lid 
18
0 2
37 0
38 0
39 0
41 0
75 0
76 0
247 0
248 1
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 242 1 0
0 243 -1 0
0 244 -1 1
14
end_operator
begin_operator
do-jockey-wheel__show 
8
0 24
190 0
83 0
91 0
94 0
111 0
133 0
192 0
2
0 112 1 0
0 113 -1 0
70
end_operator
begin_operator
do-jockey-wheel__wind_5f_up 
5
0 24
46 0
189 0
190 1
192 0
3
0 78 1 0
0 83 -1 1
0 84 -1 0
58
end_operator
begin_operator
do-kitchen-tap__cold 
29
0 2
37 0
103 0
104 0
60 0
62 0
38 0
165 0
166 0
176 0
180 0
39 0
41 0
75 0
76 0
107 0
187 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
88 0
231 0
174 0
1
0 250 1 0
39
end_operator
begin_operator
do-lounge-bed__show 
16
0 0
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
1
0 213 1 0
81
end_operator
begin_operator
do-lounge-window__show 
16
0 0
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
1
0 212 1 0
61
end_operator
begin_operator
do-mains-inlet__plug_5f_in 
3
0 21
189 1
192 0
4
0 33 1 0
0 146 -1 0
0 148 -1 0
0 149 -1 1
88
end_operator
begin_operator
do-mains-inlet__unplug 
5
0 21
143 1
192 0
164 1
161 1
4
0 85 1 0
0 146 -1 1
0 148 -1 1
0 149 -1 0
68
end_operator
begin_operator
do-mains-unit__breakers 
18
0 3
37 0
38 0
129 0
39 0
41 0
75 0
76 0
126 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
1
0 223 1 0
40
end_operator
begin_operator
do-mains-unit__polarity 
22
0 3
37 0
38 0
129 0
39 0
41 0
75 0
76 0
146 0
148 0
125 0
126 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
221 0
1
0 222 1 0
44
end_operator
begin_operator
do-mains-unit__switch_5f_on 
18
0 3
37 0
38 0
39 0
41 0
75 0
76 0
146 0
148 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 123 1 0
0 125 -1 0
0 126 -1 0
48
end_operator
begin_operator
do-propane__label 
5
0 23
42 0
200 0
44 0
192 0
1
0 201 1 0
7
end_operator
begin_operator
do-road-plug__connect 
4
0 24
46 0
189 0
192 0
3
0 59 1 0
0 66 -1 0
0 67 -1 1
32
end_operator
begin_operator
do-road-plug__lights 
4
0 24
84 0
66 0
192 0
4
0 70 1 0
0 228 -1 0
0 227 -1 1
0 72 -1 1
99
end_operator
begin_operator
do-road-plug__show 
3
0 24
67 0
192 0
1
0 197 1 0
45
end_operator
begin_operator
do-rooflight__open 
17
0 2
37 0
38 0
39 0
41 0
75 0
76 0
189 1
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 116 1 0
0 124 -1 0
0 127 -1 1
22
end_operator
begin_operator
do-rooflight__show 
17
0 2
37 0
38 0
39 0
41 0
75 0
76 0
124 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
1
0 211 1 0
29
end_operator
begin_operator
do-rooflight__shut 
16
0 2
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 117 1 0
0 124 0 1
0 127 -1 0
14
end_operator
begin_operator
do-shower__show 
23
0 5
37 0
38 0
176 0
180 0
39 0
41 0
75 0
76 0
107 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
88 0
183 0
230 0
174 0
1
0 233 1 0
55
end_operator
begin_operator
do-smoke-alarm__test 
16
0 1
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
2
0 204 1 0
0 205 -1 0
46
end_operator
begin_operator
do-space-heater__gas_5f_off 
16
0 2
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 102 1 0
0 152 -1 1
0 153 -1 0
19
end_operator
begin_operator
do-space-heater__light_5f_gas 
33
0 2
37 0
103 0
104 0
60 0
62 0
38 0
110 0
105 0
165 0
166 0
150 0
154 1
39 0
41 0
75 0
76 0
141 0
142 1
63 0
71 0
21 0
22 1
23 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
4
0 145 1 0
0 240 -1 0
0 152 -1 0
0 153 -1 1
74
end_operator
begin_operator
do-space-heater__mains 
22
0 2
37 0
38 0
130 0
39 0
41 0
75 0
76 0
146 0
148 0
149 1
125 0
126 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 137 1 0
0 147 -1 1
0 143 -1 0
39
end_operator
begin_operator
do-space-heater__mains_5f_off 
16
0 2
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 118 1 0
0 147 -1 0
0 143 0 1
9
end_operator
begin_operator
do-space-heater__thermostat 
17
0 2
37 0
38 0
39 0
41 0
75 0
76 0
240 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
1
0 241 1 0
35
end_operator
begin_operator
do-steady-front-nearside__explain 
3
0 9
190 0
192 0
5
0 29 1 0
0 49 -1 0
0 50 -1 0
0 51 -1 0
0 52 -1 0
54
end_operator
begin_operator
do-steady-front-nearside__wind_5f_down 
5
0 9
189 1
190 0
49 0
192 0
4
0 79 1 0
0 89 -1 0
0 90 -1 0
0 91 -1 1
22
end_operator
begin_operator
do-steady-front-nearside__wind_5f_up 
4
0 9
40 0
77 0
192 0
4
0 54 1 0
0 89 -1 1
0 90 -1 1
0 91 -1 0
21
end_operator
begin_operator
do-steady-front-offside__wind_5f_down 
5
0 22
189 1
190 0
50 0
192 0
4
0 80 1 0
0 92 -1 0
0 93 -1 0
0 94 -1 1
22
end_operator
begin_operator
do-steady-front-offside__wind_5f_up 
4
0 22
40 0
77 0
192 0
4
0 55 1 0
0 92 -1 1
0 93 -1 1
0 94 -1 0
21
end_operator
begin_operator
do-steady-rear-nearside__wind_5f_down 
5
0 14
189 1
190 0
51 0
192 0
4
0 81 1 0
0 95 -1 0
0 96 -1 0
0 111 -1 1
22
end_operator
begin_operator
do-steady-rear-nearside__wind_5f_up 
4
0 14
40 0
77 0
192 0
4
0 56 1 0
0 95 -1 1
0 96 -1 1
0 111 -1 0
21
end_operator
begin_operator
do-steady-rear-offside__wind_5f_down 
5
0 15
189 1
190 0
52 0
192 0
4
0 82 1 0
0 114 -1 0
0 121 -1 0
0 133 -1 1
22
end_operator
begin_operator
do-steady-rear-offside__wind_5f_up 
4
0 15
40 0
77 0
192 0
4
0 57 1 0
0 114 -1 1
0 121 -1 1
0 133 -1 0
21
end_operator
begin_operator
do-toilet__clean 
17
0 5
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
235 0
192 0
1
0 236 1 0
29
end_operator
begin_operator
do-toilet__use 
27
0 5
37 0
103 0
104 0
60 0
62 0
38 0
165 0
166 0
176 0
180 0
39 0
41 0
75 0
76 0
199 0
107 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
174 0
2
0 234 1 0
0 235 -1 0
79
end_operator
begin_operator
do-van__last_5f_look 
15
0 12
47 1
154 0
40 0
77 0
45 0
189 1
83 1
149 0
72 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
15
0 12
47 1
154 0
40 0
77 0
45 0
189 1
83 1
149 0
67 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
14
0 12
47 1
154 0
40 0
77 0
45 0
189 1
83 1
149 0
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
15
0 12
47 1
154 0
40 0
77 0
45 0
189 1
149 0
72 1
67 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
14
0 12
47 1
154 0
40 0
77 0
45 0
189 1
149 0
72 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
14
0 12
47 1
154 0
40 0
77 0
45 0
189 1
149 0
67 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
13
0 12
47 1
154 0
40 0
77 0
45 0
189 1
149 0
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
15
0 12
47 1
154 0
40 0
77 0
45 0
83 1
149 0
72 1
67 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
15
0 12
154 0
40 0
77 0
45 0
189 1
83 1
149 0
72 1
67 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
14
0 12
154 0
40 0
77 0
45 0
189 1
83 1
149 0
72 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
14
0 12
154 0
40 0
77 0
45 0
189 1
83 1
149 0
67 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
13
0 12
154 0
40 0
77 0
45 0
189 1
83 1
149 0
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
14
0 12
154 0
40 0
77 0
45 0
189 1
149 0
72 1
67 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
13
0 12
154 0
40 0
77 0
45 0
189 1
149 0
72 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
13
0 12
154 0
40 0
77 0
45 0
189 1
149 0
67 1
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__last_5f_look 
12
0 12
154 0
40 0
77 0
45 0
189 1
149 0
127 0
91 0
94 0
111 0
133 0
3
0 191 1 0
0 192 0 1
0 193 -1 0
115
end_operator
begin_operator
do-van__loading 
2
0 12
192 0
1
0 196 1 0
44
end_operator
begin_operator
do-van__papers 
2
0 12
193 0
2
0 208 1 0
0 209 -1 0
91
end_operator
begin_operator
do-van__questions 
4
0 12
207 0
209 0
193 0
1
0 210 1 0
90
end_operator
begin_operator
do-van__service 
2
0 12
193 0
2
0 206 1 0
0 207 -1 0
38
end_operator
begin_operator
do-van__welcome 
1
0 12
3
0 1 1 0
0 192 -1 0
0 193 -1 1
30
end_operator
begin_operator
do-washbasin__show 
21
0 5
37 0
38 0
176 0
180 0
39 0
41 0
75 0
76 0
107 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
88 0
174 0
1
0 232 1 0
36
end_operator
begin_operator
do-waste-outlet__clear 
4
0 18
192 0
168 1
182 1
3
0 74 1 0
0 87 -1 0
0 88 -1 1
52
end_operator
begin_operator
do-waste-outlet__place 
2
0 18
192 0
3
0 12 1 0
0 87 -1 1
0 88 -1 0
52
end_operator
begin_operator
do-water-heater__bleed 
32
13 0
0 2
37 0
103 0
104 0
60 0
62 0
38 0
165 0
166 0
176 0
180 0
39 0
41 0
75 0
76 0
107 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
88 0
140 0
174 0
175 1
168 1
182 1
2
0 171 1 0
0 187 -1 0
22
end_operator
begin_operator
do-water-heater__cool 
31
0 2
37 0
103 0
104 0
60 0
62 0
38 0
165 0
166 0
176 0
184 1
180 0
39 0
41 0
75 0
76 0
107 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
88 0
163 0
179 0
140 0
174 0
6
0 181 1 0
0 187 -1 1
0 185 -1 1
0 186 -1 0
0 183 0 1
0 182 1 0
14
end_operator
begin_operator
do-water-heater__drain 
22
0 0
37 0
38 0
172 0
184 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
163 0
179 0
185 0
140 0
3
0 170 1 0
0 187 -1 1
0 175 1 0
46
end_operator
begin_operator
do-water-heater__fill 
27
0 2
37 0
103 0
104 0
60 0
62 0
38 0
165 0
166 0
176 0
180 0
39 0
41 0
75 0
76 0
107 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
88 0
174 0
3
0 167 1 0
0 187 -1 1
0 168 1 0
36
end_operator
begin_operator
do-water-heater__gas_5f_off 
16
0 0
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
3
0 119 1 0
0 177 0 1
0 179 -1 0
16
end_operator
begin_operator
do-water-heater__gas_5f_on 
40
0 0
37 0
103 0
104 0
60 0
62 0
38 0
110 0
105 0
165 0
166 0
150 0
154 1
184 1
39 0
41 0
75 0
76 0
141 0
142 1
63 0
71 0
24 0
25 1
26 0
187 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
160 0
139 1
140 0
175 1
182 1
3
0 169 1 0
0 177 -1 0
0 179 -1 1
47
end_operator
begin_operator
do-water-heater__heat_5f_mains 
27
0 0
37 0
38 0
184 1
39 0
41 0
75 0
76 0
187 0
146 0
148 0
149 1
125 0
126 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
139 1
140 0
175 1
182 1
6
0 156 1 0
0 163 -1 1
0 164 -1 0
0 221 -1 1
0 160 -1 0
0 161 1 0
40
end_operator
begin_operator
do-water-heater__hot 
30
0 2
37 0
103 0
104 0
60 0
62 0
38 0
165 0
166 0
176 0
180 0
39 0
41 0
75 0
76 0
107 0
187 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
88 0
183 0
140 0
174 0
3
0 229 1 0
0 231 -1 1
0 230 -1 0
45
end_operator
begin_operator
do-water-heater__switch_5f_off 
17
0 0
37 0
38 0
39 0
41 0
75 0
76 0
89 0
90 0
92 0
93 0
95 0
96 0
114 0
121 0
192 0
161 1
3
0 120 1 0
0 163 -1 0
0 164 -1 1
14
end_operator
begin_operator
do-water-inlet__place_5f_pump 
4
0 19
172 0
192 0
144 0
3
0 73 1 0
0 173 -1 1
0 174 -1 0
72
end_operator
begin_operator
do-water-inlet__start_5f_fill 
2
0 19
192 0
2
0 34 1 0
0 35 1 0
50
end_operator
begin_operator
do-water-inlet__stow_5f_pump 
6
0 19
172 0
176 1
192 0
168 1
182 1
4
0 138 1 0
0 144 -1 1
0 173 -1 0
0 174 -1 1
68
end_operator
begin_operator
do-wheel-offside__nuts 
2
0 18
192 0
1
0 195 1 0
85
end_operator
begin_operator
do-wheel-offside__tyres 
2
0 18
192 0
1
0 194 1 0
67
end_operator
begin_operator
end-hob__cooling 
0
3
0 247 -1 0
0 248 -1 1
0 246 0 1
0
end_operator
begin_operator
end-water-heater__draining 
3
164 1
177 1
161 1
3
0 139 -1 0
0 140 -1 1
0 175 0 1
0
end_operator
begin_operator
end-water-heater__filling 
0
4
0 13 -1 0
0 139 -1 1
0 140 -1 0
0 168 0 1
0
end_operator
begin_operator
end-water-heater__heating 
1
184 1
4
0 185 -1 1
0 186 -1 1
0 183 -1 0
0 161 0 1
0
end_operator
begin_operator
end-water-heater__rinsing 
0
4
0 185 -1 0
0 186 -1 1
0 183 -1 1
0 182 0 1
0
end_operator
begin_operator
end-water-inlet__container_5f_fill 
0
2
0 144 -1 0
0 35 0 1
0
end_operator
begin_operator
walk p-in-01 p-in-02
0
1
0 0 0 1
1
end_operator
begin_operator
walk p-in-01 p-in-03
0
1
0 0 0 2
1
end_operator
begin_operator
walk p-in-01 p-in-04
0
1
0 0 0 3
2
end_operator
begin_operator
walk p-in-01 p-in-05
0
1
0 0 0 4
2
end_operator
begin_operator
walk p-in-01 p-in-06
0
1
0 0 0 5
3
end_operator
begin_operator
walk p-in-01 p-out-01
0
1
0 0 0 6
12
end_operator
begin_operator
walk p-in-01 p-out-02
0
1
0 0 0 7
12
end_operator
begin_operator
walk p-in-01 p-out-03
0
1
0 0 0 8
11
end_operator
begin_operator
walk p-in-01 p-out-04
0
1
0 0 0 9
11
end_operator
begin_operator
walk p-in-01 p-out-05
0
1
0 0 0 10
8
end_operator
begin_operator
walk p-in-01 p-out-06
0
1
0 0 0 11
8
end_operator
begin_operator
walk p-in-01 p-out-07
0
1
0 0 0 12
7
end_operator
begin_operator
walk p-in-01 p-out-08
0
1
0 0 0 13
7
end_operator
begin_operator
walk p-in-01 p-out-09
0
1
0 0 0 14
8
end_operator
begin_operator
walk p-in-01 p-out-10
0
1
0 0 0 15
13
end_operator
begin_operator
walk p-in-01 p-out-11
0
1
0 0 0 16
14
end_operator
begin_operator
walk p-in-01 p-out-12
0
1
0 0 0 17
14
end_operator
begin_operator
walk p-in-01 p-out-13
0
1
0 0 0 18
15
end_operator
begin_operator
walk p-in-01 p-out-14
0
1
0 0 0 19
16
end_operator
begin_operator
walk p-in-01 p-out-15
0
1
0 0 0 20
16
end_operator
begin_operator
walk p-in-01 p-out-16
0
1
0 0 0 21
16
end_operator
begin_operator
walk p-in-01 p-out-17
0
1
0 0 0 22
15
end_operator
begin_operator
walk p-in-01 p-out-18
0
1
0 0 0 23
15
end_operator
begin_operator
walk p-in-01 p-out-19
0
1
0 0 0 24
14
end_operator
begin_operator
walk p-in-02 p-in-01
0
1
0 0 1 0
1
end_operator
begin_operator
walk p-in-02 p-in-03
0
1
0 0 1 2
1
end_operator
begin_operator
walk p-in-02 p-in-04
0
1
0 0 1 3
1
end_operator
begin_operator
walk p-in-02 p-in-05
0
1
0 0 1 4
2
end_operator
begin_operator
walk p-in-02 p-in-06
0
1
0 0 1 5
2
end_operator
begin_operator
walk p-in-02 p-out-01
0
1
0 0 1 6
12
end_operator
begin_operator
walk p-in-02 p-out-02
0
1
0 0 1 7
11
end_operator
begin_operator
walk p-in-02 p-out-03
0
1
0 0 1 8
11
end_operator
begin_operator
walk p-in-02 p-out-04
0
1
0 0 1 9
10
end_operator
begin_operator
walk p-in-02 p-out-05
0
1
0 0 1 10
8
end_operator
begin_operator
walk p-in-02 p-out-06
0
1
0 0 1 11
7
end_operator
begin_operator
walk p-in-02 p-out-07
0
1
0 0 1 12
6
end_operator
begin_operator
walk p-in-02 p-out-08
0
1
0 0 1 13
7
end_operator
begin_operator
walk p-in-02 p-out-09
0
1
0 0 1 14
8
end_operator
begin_operator
walk p-in-02 p-out-10
0
1
0 0 1 15
13
end_operator
begin_operator
walk p-in-02 p-out-11
0
1
0 0 1 16
13
end_operator
begin_operator
walk p-in-02 p-out-12
0
1
0 0 1 17
14
end_operator
begin_operator
walk p-in-02 p-out-13
0
1
0 0 1 18
15
end_operator
begin_operator
walk p-in-02 p-out-14
0
1
0 0 1 19
15
end_operator
begin_operator
walk p-in-02 p-out-15
0
1
0 0 1 20
16
end_operator
begin_operator
walk p-in-02 p-out-16
0
1
0 0 1 21
16
end_operator
begin_operator
walk p-in-02 p-out-17
0
1
0 0 1 22
15
end_operator
begin_operator
walk p-in-02 p-out-18
0
1
0 0 1 23
14
end_operator
begin_operator
walk p-in-02 p-out-19
0
1
0 0 1 24
13
end_operator
begin_operator
walk p-in-03 p-in-01
0
1
0 0 2 0
1
end_operator
begin_operator
walk p-in-03 p-in-02
0
1
0 0 2 1
1
end_operator
begin_operator
walk p-in-03 p-in-04
0
1
0 0 2 3
1
end_operator
begin_operator
walk p-in-03 p-in-05
0
1
0 0 2 4
1
end_operator
begin_operator
walk p-in-03 p-in-06
0
1
0 0 2 5
2
end_operator
begin_operator
walk p-in-03 p-out-01
0
1
0 0 2 6
11
end_operator
begin_operator
walk p-in-03 p-out-02
0
1
0 0 2 7
11
end_operator
begin_operator
walk p-in-03 p-out-03
0
1
0 0 2 8
10
end_operator
begin_operator
walk p-in-03 p-out-04
0
1
0 0 2 9
10
end_operator
begin_operator
walk p-in-03 p-out-05
0
1
0 0 2 10
7
end_operator
begin_operator
walk p-in-03 p-out-06
0
1
0 0 2 11
7
end_operator
begin_operator
walk p-in-03 p-out-07
0
1
0 0 2 12
6
end_operator
begin_operator
walk p-in-03 p-out-08
0
1
0 0 2 13
6
end_operator
begin_operator
walk p-in-03 p-out-09
0
1
0 0 2 14
7
end_operator
begin_operator
walk p-in-03 p-out-10
0
1
0 0 2 15
12
end_operator
begin_operator
walk p-in-03 p-out-11
0
1
0 0 2 16
13
end_operator
begin_operator
walk p-in-03 p-out-12
0
1
0 0 2 17
13
end_operator
begin_operator
walk p-in-03 p-out-13
0
1
0 0 2 18
14
end_operator
begin_operator
walk p-in-03 p-out-14
0
1
0 0 2 19
15
end_operator
begin_operator
walk p-in-03 p-out-15
0
1
0 0 2 20
15
end_operator
begin_operator
walk p-in-03 p-out-16
0
1
0 0 2 21
15
end_operator
begin_operator
walk p-in-03 p-out-17
0
1
0 0 2 22
14
end_operator
begin_operator
walk p-in-03 p-out-18
0
1
0 0 2 23
14
end_operator
begin_operator
walk p-in-03 p-out-19
0
1
0 0 2 24
13
end_operator
begin_operator
walk p-in-04 p-in-01
0
1
0 0 3 0
2
end_operator
begin_operator
walk p-in-04 p-in-02
0
1
0 0 3 1
1
end_operator
begin_operator
walk p-in-04 p-in-03
0
1
0 0 3 2
1
end_operator
begin_operator
walk p-in-04 p-in-05
0
1
0 0 3 4
1
end_operator
begin_operator
walk p-in-04 p-in-06
0
1
0 0 3 5
1
end_operator
begin_operator
walk p-in-04 p-out-01
0
1
0 0 3 6
11
end_operator
begin_operator
walk p-in-04 p-out-02
0
1
0 0 3 7
10
end_operator
begin_operator
walk p-in-04 p-out-03
0
1
0 0 3 8
10
end_operator
begin_operator
walk p-in-04 p-out-04
0
1
0 0 3 9
9
end_operator
begin_operator
walk p-in-04 p-out-05
0
1
0 0 3 10
7
end_operator
begin_operator
walk p-in-04 p-out-06
0
1
0 0 3 11
6
end_operator
begin_operator
walk p-in-04 p-out-07
0
1
0 0 3 12
5
end_operator
begin_operator
walk p-in-04 p-out-08
0
1
0 0 3 13
6
end_operator
begin_operator
walk p-in-04 p-out-09
0
1
0 0 3 14
7
end_operator
begin_operator
walk p-in-04 p-out-10
0
1
0 0 3 15
12
end_operator
begin_operator
walk p-in-04 p-out-11
0
1
0 0 3 16
12
end_operator
begin_operator
walk p-in-04 p-out-12
0
1
0 0 3 17
13
end_operator
begin_operator
walk p-in-04 p-out-13
0
1
0 0 3 18
14
end_operator
begin_operator
walk p-in-04 p-out-14
0
1
0 0 3 19
14
end_operator
begin_operator
walk p-in-04 p-out-15
0
1
0 0 3 20
15
end_operator
begin_operator
walk p-in-04 p-out-16
0
1
0 0 3 21
15
end_operator
begin_operator
walk p-in-04 p-out-17
0
1
0 0 3 22
14
end_operator
begin_operator
walk p-in-04 p-out-18
0
1
0 0 3 23
13
end_operator
begin_operator
walk p-in-04 p-out-19
0
1
0 0 3 24
12
end_operator
begin_operator
walk p-in-05 p-in-01
0
1
0 0 4 0
2
end_operator
begin_operator
walk p-in-05 p-in-02
0
1
0 0 4 1
2
end_operator
begin_operator
walk p-in-05 p-in-03
0
1
0 0 4 2
1
end_operator
begin_operator
walk p-in-05 p-in-04
0
1
0 0 4 3
1
end_operator
begin_operator
walk p-in-05 p-in-06
0
1
0 0 4 5
1
end_operator
begin_operator
walk p-in-05 p-out-01
0
1
0 0 4 6
11
end_operator
begin_operator
walk p-in-05 p-out-02
0
1
0 0 4 7
10
end_operator
begin_operator
walk p-in-05 p-out-03
0
1
0 0 4 8
10
end_operator
begin_operator
walk p-in-05 p-out-04
0
1
0 0 4 9
9
end_operator
begin_operator
walk p-in-05 p-out-05
0
1
0 0 4 10
7
end_operator
begin_operator
walk p-in-05 p-out-06
0
1
0 0 4 11
6
end_operator
begin_operator
walk p-in-05 p-out-07
0
1
0 0 4 12
5
end_operator
begin_operator
walk p-in-05 p-out-08
0
1
0 0 4 13
5
end_operator
begin_operator
walk p-in-05 p-out-09
0
1
0 0 4 14
6
end_operator
begin_operator
walk p-in-05 p-out-10
0
1
0 0 4 15
11
end_operator
begin_operator
walk p-in-05 p-out-11
0
1
0 0 4 16
12
end_operator
begin_operator
walk p-in-05 p-out-12
0
1
0 0 4 17
12
end_operator
begin_operator
walk p-in-05 p-out-13
0
1
0 0 4 18
13
end_operator
begin_operator
walk p-in-05 p-out-14
0
1
0 0 4 19
14
end_operator
begin_operator
walk p-in-05 p-out-15
0
1
0 0 4 20
14
end_operator
begin_operator
walk p-in-05 p-out-16
0
1
0 0 4 21
14
end_operator
begin_operator
walk p-in-05 p-out-17
0
1
0 0 4 22
13
end_operator
begin_operator
walk p-in-05 p-out-18
0
1
0 0 4 23
13
end_operator
begin_operator
walk p-in-05 p-out-19
0
1
0 0 4 24
12
end_operator
begin_operator
walk p-in-06 p-in-01
0
1
0 0 5 0
3
end_operator
begin_operator
walk p-in-06 p-in-02
0
1
0 0 5 1
2
end_operator
begin_operator
walk p-in-06 p-in-03
0
1
0 0 5 2
2
end_operator
begin_operator
walk p-in-06 p-in-04
0
1
0 0 5 3
1
end_operator
begin_operator
walk p-in-06 p-in-05
0
1
0 0 5 4
1
end_operator
begin_operator
walk p-in-06 p-out-01
0
1
0 0 5 6
11
end_operator
begin_operator
walk p-in-06 p-out-02
0
1
0 0 5 7
11
end_operator
begin_operator
walk p-in-06 p-out-03
0
1
0 0 5 8
10
end_operator
begin_operator
walk p-in-06 p-out-04
0
1
0 0 5 9
10
end_operator
begin_operator
walk p-in-06 p-out-05
0
1
0 0 5 10
7
end_operator
begin_operator
walk p-in-06 p-out-06
0
1
0 0 5 11
7
end_operator
begin_operator
walk p-in-06 p-out-07
0
1
0 0 5 12
6
end_operator
begin_operator
walk p-in-06 p-out-08
0
1
0 0 5 13
6
end_operator
begin_operator
walk p-in-06 p-out-09
0
1
0 0 5 14
7
end_operator
begin_operator
walk p-in-06 p-out-10
0
1
0 0 5 15
12
end_operator
begin_operator
walk p-in-06 p-out-11
0
1
0 0 5 16
12
end_operator
begin_operator
walk p-in-06 p-out-12
0
1
0 0 5 17
13
end_operator
begin_operator
walk p-in-06 p-out-13
0
1
0 0 5 18
14
end_operator
begin_operator
walk p-in-06 p-out-14
0
1
0 0 5 19
14
end_operator
begin_operator
walk p-in-06 p-out-15
0
1
0 0 5 20
15
end_operator
begin_operator
walk p-in-06 p-out-16
0
1
0 0 5 21
15
end_operator
begin_operator
walk p-in-06 p-out-17
0
1
0 0 5 22
14
end_operator
begin_operator
walk p-in-06 p-out-18
0
1
0 0 5 23
13
end_operator
begin_operator
walk p-in-06 p-out-19
0
1
0 0 5 24
12
end_operator
begin_operator
walk p-out-01 p-in-01
0
1
0 0 6 0
12
end_operator
begin_operator
walk p-out-01 p-in-02
0
1
0 0 6 1
12
end_operator
begin_operator
walk p-out-01 p-in-03
0
1
0 0 6 2
11
end_operator
begin_operator
walk p-out-01 p-in-04
0
1
0 0 6 3
11
end_operator
begin_operator
walk p-out-01 p-in-05
0
1
0 0 6 4
11
end_operator
begin_operator
walk p-out-01 p-in-06
0
1
0 0 6 5
11
end_operator
begin_operator
walk p-out-01 p-out-02
0
1
0 0 6 7
1
end_operator
begin_operator
walk p-out-01 p-out-03
0
1
0 0 6 8
1
end_operator
begin_operator
walk p-out-01 p-out-04
0
1
0 0 6 9
2
end_operator
begin_operator
walk p-out-01 p-out-05
0
1
0 0 6 10
4
end_operator
begin_operator
walk p-out-01 p-out-06
0
1
0 0 6 11
5
end_operator
begin_operator
walk p-out-01 p-out-07
0
1
0 0 6 12
6
end_operator
begin_operator
walk p-out-01 p-out-08
0
1
0 0 6 13
6
end_operator
begin_operator
walk p-out-01 p-out-09
0
1
0 0 6 14
7
end_operator
begin_operator
walk p-out-01 p-out-10
0
1
0 0 6 15
8
end_operator
begin_operator
walk p-out-01 p-out-11
0
1
0 0 6 16
7
end_operator
begin_operator
walk p-out-01 p-out-12
0
1
0 0 6 17
7
end_operator
begin_operator
walk p-out-01 p-out-13
0
1
0 0 6 18
6
end_operator
begin_operator
walk p-out-01 p-out-14
0
1
0 0 6 19
5
end_operator
begin_operator
walk p-out-01 p-out-15
0
1
0 0 6 20
5
end_operator
begin_operator
walk p-out-01 p-out-16
0
1
0 0 6 21
4
end_operator
begin_operator
walk p-out-01 p-out-17
0
1
0 0 6 22
3
end_operator
begin_operator
walk p-out-01 p-out-18
0
1
0 0 6 23
3
end_operator
begin_operator
walk p-out-01 p-out-19
0
1
0 0 6 24
2
end_operator
begin_operator
walk p-out-02 p-in-01
0
1
0 0 7 0
12
end_operator
begin_operator
walk p-out-02 p-in-02
0
1
0 0 7 1
11
end_operator
begin_operator
walk p-out-02 p-in-03
0
1
0 0 7 2
11
end_operator
begin_operator
walk p-out-02 p-in-04
0
1
0 0 7 3
10
end_operator
begin_operator
walk p-out-02 p-in-05
0
1
0 0 7 4
10
end_operator
begin_operator
walk p-out-02 p-in-06
0
1
0 0 7 5
11
end_operator
begin_operator
walk p-out-02 p-out-01
0
1
0 0 7 6
1
end_operator
begin_operator
walk p-out-02 p-out-03
0
1
0 0 7 8
1
end_operator
begin_operator
walk p-out-02 p-out-04
0
1
0 0 7 9
1
end_operator
begin_operator
walk p-out-02 p-out-05
0
1
0 0 7 10
4
end_operator
begin_operator
walk p-out-02 p-out-06
0
1
0 0 7 11
4
end_operator
begin_operator
walk p-out-02 p-out-07
0
1
0 0 7 12
5
end_operator
begin_operator
walk p-out-02 p-out-08
0
1
0 0 7 13
5
end_operator
begin_operator
walk p-out-02 p-out-09
0
1
0 0 7 14
6
end_operator
begin_operator
walk p-out-02 p-out-10
0
1
0 0 7 15
8
end_operator
begin_operator
walk p-out-02 p-out-11
0
1
0 0 7 16
8
end_operator
begin_operator
walk p-out-02 p-out-12
0
1
0 0 7 17
7
end_operator
begin_operator
walk p-out-02 p-out-13
0
1
0 0 7 18
6
end_operator
begin_operator
walk p-out-02 p-out-14
0
1
0 0 7 19
6
end_operator
begin_operator
walk p-out-02 p-out-15
0
1
0 0 7 20
5
end_operator
begin_operator
walk p-out-02 p-out-16
0
1
0 0 7 21
5
end_operator
begin_operator
walk p-out-02 p-out-17
0
1
0 0 7 22
4
end_operator
begin_operator
walk p-out-02 p-out-18
0
1
0 0 7 23
3
end_operator
begin_operator
walk p-out-02 p-out-19
0
1
0 0 7 24
2
end_operator
begin_operator
walk p-out-03 p-in-01
0
1
0 0 8 0
11
end_operator
begin_operator
walk p-out-03 p-in-02
0
1
0 0 8 1
11
end_operator
begin_operator
walk p-out-03 p-in-03
0
1
0 0 8 2
10
end_operator
begin_operator
walk p-out-03 p-in-04
0
1
0 0 8 3
10
end_operator
begin_operator
walk p-out-03 p-in-05
0
1
0 0 8 4
10
end_operator
begin_operator
walk p-out-03 p-in-06
0
1
0 0 8 5
10
end_operator
begin_operator
walk p-out-03 p-out-01
0
1
0 0 8 6
1
end_operator
begin_operator
walk p-out-03 p-out-02
0
1
0 0 8 7
1
end_operator
begin_operator
walk p-out-03 p-out-04
0
1
0 0 8 9
1
end_operator
begin_operator
walk p-out-03 p-out-05
0
1
0 0 8 10
3
end_operator
begin_operator
walk p-out-03 p-out-06
0
1
0 0 8 11
4
end_operator
begin_operator
walk p-out-03 p-out-07
0
1
0 0 8 12
5
end_operator
begin_operator
walk p-out-03 p-out-08
0
1
0 0 8 13
5
end_operator
begin_operator
walk p-out-03 p-out-09
0
1
0 0 8 14
6
end_operator
begin_operator
walk p-out-03 p-out-10
0
1
0 0 8 15
9
end_operator
begin_operator
walk p-out-03 p-out-11
0
1
0 0 8 16
8
end_operator
begin_operator
walk p-out-03 p-out-12
0
1
0 0 8 17
8
end_operator
begin_operator
walk p-out-03 p-out-13
0
1
0 0 8 18
7
end_operator
begin_operator
walk p-out-03 p-out-14
0
1
0 0 8 19
6
end_operator
begin_operator
walk p-out-03 p-out-15
0
1
0 0 8 20
6
end_operator
begin_operator
walk p-out-03 p-out-16
0
1
0 0 8 21
5
end_operator
begin_operator
walk p-out-03 p-out-17
0
1
0 0 8 22
4
end_operator
begin_operator
walk p-out-03 p-out-18
0
1
0 0 8 23
4
end_operator
begin_operator
walk p-out-03 p-out-19
0
1
0 0 8 24
3
end_operator
begin_operator
walk p-out-04 p-in-01
0
1
0 0 9 0
11
end_operator
begin_operator
walk p-out-04 p-in-02
0
1
0 0 9 1
10
end_operator
begin_operator
walk p-out-04 p-in-03
0
1
0 0 9 2
10
end_operator
begin_operator
walk p-out-04 p-in-04
0
1
0 0 9 3
9
end_operator
begin_operator
walk p-out-04 p-in-05
0
1
0 0 9 4
9
end_operator
begin_operator
walk p-out-04 p-in-06
0
1
0 0 9 5
10
end_operator
begin_operator
walk p-out-04 p-out-01
0
1
0 0 9 6
2
end_operator
begin_operator
walk p-out-04 p-out-02
0
1
0 0 9 7
1
end_operator
begin_operator
walk p-out-04 p-out-03
0
1
0 0 9 8
1
end_operator
begin_operator
walk p-out-04 p-out-05
0
1
0 0 9 10
3
end_operator
begin_operator
walk p-out-04 p-out-06
0
1
0 0 9 11
3
end_operator
begin_operator
walk p-out-04 p-out-07
0
1
0 0 9 12
4
end_operator
begin_operator
walk p-out-04 p-out-08
0
1
0 0 9 13
4
end_operator
begin_operator
walk p-out-04 p-out-09
0
1
0 0 9 14
5
end_operator
begin_operator
walk p-out-04 p-out-10
0
1
0 0 9 15
9
end_operator
begin_operator
walk p-out-04 p-out-11
0
1
0 0 9 16
9
end_operator
begin_operator
walk p-out-04 p-out-12
0
1
0 0 9 17
8
end_operator
begin_operator
walk p-out-04 p-out-13
0
1
0 0 9 18
7
end_operator
begin_operator
walk p-out-04 p-out-14
0
1
0 0 9 19
7
end_operator
begin_operator
walk p-out-04 p-out-15
0
1
0 0 9 20
6
end_operator
begin_operator
walk p-out-04 p-out-16
0
1
0 0 9 21
6
end_operator
begin_operator
walk p-out-04 p-out-17
0
1
0 0 9 22
5
end_operator
begin_operator
walk p-out-04 p-out-18
0
1
0 0 9 23
4
end_operator
begin_operator
walk p-out-04 p-out-19
0
1
0 0 9 24
3
end_operator
begin_operator
walk p-out-05 p-in-01
0
1
0 0 10 0
8
end_operator
begin_operator
walk p-out-05 p-in-02
0
1
0 0 10 1
8
end_operator
begin_operator
walk p-out-05 p-in-03
0
1
0 0 10 2
7
end_operator
begin_operator
walk p-out-05 p-in-04
0
1
0 0 10 3
7
end_operator
begin_operator
walk p-out-05 p-in-05
0
1
0 0 10 4
7
end_operator
begin_operator
walk p-out-05 p-in-06
0
1
0 0 10 5
7
end_operator
begin_operator
walk p-out-05 p-out-01
0
1
0 0 10 6
4
end_operator
begin_operator
walk p-out-05 p-out-02
0
1
0 0 10 7
4
end_operator
begin_operator
walk p-out-05 p-out-03
0
1
0 0 10 8
3
end_operator
begin_operator
walk p-out-05 p-out-04
0
1
0 0 10 9
3
end_operator
begin_operator
walk p-out-05 p-out-06
0
1
0 0 10 11
1
end_operator
begin_operator
walk p-out-05 p-out-07
0
1
0 0 10 12
2
end_operator
begin_operator
walk p-out-05 p-out-08
0
1
0 0 10 13
2
end_operator
begin_operator
walk p-out-05 p-out-09
0
1
0 0 10 14
3
end_operator
begin_operator
walk p-out-05 p-out-10
0
1
0 0 10 15
8
end_operator
begin_operator
walk p-out-05 p-out-11
0
1
0 0 10 16
8
end_operator
begin_operator
walk p-out-05 p-out-12
0
1
0 0 10 17
9
end_operator
begin_operator
walk p-out-05 p-out-13
0
1
0 0 10 18
10
end_operator
begin_operator
walk p-out-05 p-out-14
0
1
0 0 10 19
9
end_operator
begin_operator
walk p-out-05 p-out-15
0
1
0 0 10 20
9
end_operator
begin_operator
walk p-out-05 p-out-16
0
1
0 0 10 21
8
end_operator
begin_operator
walk p-out-05 p-out-17
0
1
0 0 10 22
7
end_operator
begin_operator
walk p-out-05 p-out-18
0
1
0 0 10 23
7
end_operator
begin_operator
walk p-out-05 p-out-19
0
1
0 0 10 24
6
end_operator
begin_operator
walk p-out-06 p-in-01
0
1
0 0 11 0
8
end_operator
begin_operator
walk p-out-06 p-in-02
0
1
0 0 11 1
7
end_operator
begin_operator
walk p-out-06 p-in-03
0
1
0 0 11 2
7
end_operator
begin_operator
walk p-out-06 p-in-04
0
1
0 0 11 3
6
end_operator
begin_operator
walk p-out-06 p-in-05
0
1
0 0 11 4
6
end_operator
begin_operator
walk p-out-06 p-in-06
0
1
0 0 11 5
7
end_operator
begin_operator
walk p-out-06 p-out-01
0
1
0 0 11 6
5
end_operator
begin_operator
walk p-out-06 p-out-02
0
1
0 0 11 7
4
end_operator
begin_operator
walk p-out-06 p-out-03
0
1
0 0 11 8
4
end_operator
begin_operator
walk p-out-06 p-out-04
0
1
0 0 11 9
3
end_operator
begin_operator
walk p-out-06 p-out-05
0
1
0 0 11 10
1
end_operator
begin_operator
walk p-out-06 p-out-07
0
1
0 0 11 12
1
end_operator
begin_operator
walk p-out-06 p-out-08
0
1
0 0 11 13
1
end_operator
begin_operator
walk p-out-06 p-out-09
0
1
0 0 11 14
2
end_operator
begin_operator
walk p-out-06 p-out-10
0
1
0 0 11 15
7
end_operator
begin_operator
walk p-out-06 p-out-11
0
1
0 0 11 16
8
end_operator
begin_operator
walk p-out-06 p-out-12
0
1
0 0 11 17
8
end_operator
begin_operator
walk p-out-06 p-out-13
0
1
0 0 11 18
9
end_operator
begin_operator
walk p-out-06 p-out-14
0
1
0 0 11 19
10
end_operator
begin_operator
walk p-out-06 p-out-15
0
1
0 0 11 20
9
end_operator
begin_operator
walk p-out-06 p-out-16
0
1
0 0 11 21
9
end_operator
begin_operator
walk p-out-06 p-out-17
0
1
0 0 11 22
8
end_operator
begin_operator
walk p-out-06 p-out-18
0
1
0 0 11 23
7
end_operator
begin_operator
walk p-out-06 p-out-19
0
1
0 0 11 24
6
end_operator
begin_operator
walk p-out-07 p-in-01
0
1
0 0 12 0
7
end_operator
begin_operator
walk p-out-07 p-in-02
0
1
0 0 12 1
6
end_operator
begin_operator
walk p-out-07 p-in-03
0
1
0 0 12 2
6
end_operator
begin_operator
walk p-out-07 p-in-04
0
1
0 0 12 3
5
end_operator
begin_operator
walk p-out-07 p-in-05
0
1
0 0 12 4
5
end_operator
begin_operator
walk p-out-07 p-in-06
0
1
0 0 12 5
6
end_operator
begin_operator
walk p-out-07 p-out-01
0
1
0 0 12 6
6
end_operator
begin_operator
walk p-out-07 p-out-02
0
1
0 0 12 7
5
end_operator
begin_operator
walk p-out-07 p-out-03
0
1
0 0 12 8
5
end_operator
begin_operator
walk p-out-07 p-out-04
0
1
0 0 12 9
4
end_operator
begin_operator
walk p-out-07 p-out-05
0
1
0 0 12 10
2
end_operator
begin_operator
walk p-out-07 p-out-06
0
1
0 0 12 11
1
end_operator
begin_operator
walk p-out-07 p-out-08
0
1
0 0 12 13
1
end_operator
begin_operator
walk p-out-07 p-out-09
0
1
0 0 12 14
2
end_operator
begin_operator
walk p-out-07 p-out-10
0
1
0 0 12 15
7
end_operator
begin_operator
walk p-out-07 p-out-11
0
1
0 0 12 16
7
end_operator
begin_operator
walk p-out-07 p-out-12
0
1
0 0 12 17
8
end_operator
begin_operator
walk p-out-07 p-out-13
0
1
0 0 12 18
9
end_operator
begin_operator
walk p-out-07 p-out-14
0
1
0 0 12 19
9
end_operator
begin_operator
walk p-out-07 p-out-15
0
1
0 0 12 20
10
end_operator
begin_operator
walk p-out-07 p-out-16
0
1
0 0 12 21
10
end_operator
begin_operator
walk p-out-07 p-out-17
0
1
0 0 12 22
9
end_operator
begin_operator
walk p-out-07 p-out-18
0
1
0 0 12 23
8
end_operator
begin_operator
walk p-out-07 p-out-19
0
1
0 0 12 24
7
end_operator
begin_operator
walk p-out-08 p-in-01
0
1
0 0 13 0
7
end_operator
begin_operator
walk p-out-08 p-in-02
0
1
0 0 13 1
7
end_operator
begin_operator
walk p-out-08 p-in-03
0
1
0 0 13 2
6
end_operator
begin_operator
walk p-out-08 p-in-04
0
1
0 0 13 3
6
end_operator
begin_operator
walk p-out-08 p-in-05
0
1
0 0 13 4
5
end_operator
begin_operator
walk p-out-08 p-in-06
0
1
0 0 13 5
6
end_operator
begin_operator
walk p-out-08 p-out-01
0
1
0 0 13 6
6
end_operator
begin_operator
walk p-out-08 p-out-02
0
1
0 0 13 7
5
end_operator
begin_operator
walk p-out-08 p-out-03
0
1
0 0 13 8
5
end_operator
begin_operator
walk p-out-08 p-out-04
0
1
0 0 13 9
4
end_operator
begin_operator
walk p-out-08 p-out-05
0
1
0 0 13 10
2
end_operator
begin_operator
walk p-out-08 p-out-06
0
1
0 0 13 11
1
end_operator
begin_operator
walk p-out-08 p-out-07
0
1
0 0 13 12
1
end_operator
begin_operator
walk p-out-08 p-out-09
0
1
0 0 13 14
1
end_operator
begin_operator
walk p-out-08 p-out-10
0
1
0 0 13 15
6
end_operator
begin_operator
walk p-out-08 p-out-11
0
1
0 0 13 16
7
end_operator
begin_operator
walk p-out-08 p-out-12
0
1
0 0 13 17
7
end_operator
begin_operator
walk p-out-08 p-out-13
0
1
0 0 13 18
8
end_operator
begin_operator
walk p-out-08 p-out-14
0
1
0 0 13 19
9
end_operator
begin_operator
walk p-out-08 p-out-15
0
1
0 0 13 20
9
end_operator
begin_operator
walk p-out-08 p-out-16
0
1
0 0 13 21
10
end_operator
begin_operator
walk p-out-08 p-out-17
0
1
0 0 13 22
9
end_operator
begin_operator
walk p-out-08 p-out-18
0
1
0 0 13 23
8
end_operator
begin_operator
walk p-out-08 p-out-19
0
1
0 0 13 24
7
end_operator
begin_operator
walk p-out-09 p-in-01
0
1
0 0 14 0
8
end_operator
begin_operator
walk p-out-09 p-in-02
0
1
0 0 14 1
8
end_operator
begin_operator
walk p-out-09 p-in-03
0
1
0 0 14 2
7
end_operator
begin_operator
walk p-out-09 p-in-04
0
1
0 0 14 3
7
end_operator
begin_operator
walk p-out-09 p-in-05
0
1
0 0 14 4
6
end_operator
begin_operator
walk p-out-09 p-in-06
0
1
0 0 14 5
7
end_operator
begin_operator
walk p-out-09 p-out-01
0
1
0 0 14 6
7
end_operator
begin_operator
walk p-out-09 p-out-02
0
1
0 0 14 7
6
end_operator
begin_operator
walk p-out-09 p-out-03
0
1
0 0 14 8
6
end_operator
begin_operator
walk p-out-09 p-out-04
0
1
0 0 14 9
5
end_operator
begin_operator
walk p-out-09 p-out-05
0
1
0 0 14 10
3
end_operator
begin_operator
walk p-out-09 p-out-06
0
1
0 0 14 11
2
end_operator
begin_operator
walk p-out-09 p-out-07
0
1
0 0 14 12
2
end_operator
begin_operator
walk p-out-09 p-out-08
0
1
0 0 14 13
1
end_operator
begin_operator
walk p-out-09 p-out-10
0
1
0 0 14 15
5
end_operator
begin_operator
walk p-out-09 p-out-11
0
1
0 0 14 16
6
end_operator
begin_operator
walk p-out-09 p-out-12
0
1
0 0 14 17
6
end_operator
begin_operator
walk p-out-09 p-out-13
0
1
0 0 14 18
7
end_operator
begin_operator
walk p-out-09 p-out-14
0
1
0 0 14 19
8
end_operator
begin_operator
walk p-out-09 p-out-15
0
1
0 0 14 20
8
end_operator
begin_operator
walk p-out-09 p-out-16
0
1
0 0 14 21
9
end_operator
begin_operator
walk p-out-09 p-out-17
0
1
0 0 14 22
10
end_operator
begin_operator
walk p-out-09 p-out-18
0
1
0 0 14 23
9
end_operator
begin_operator
walk p-out-09 p-out-19
0
1
0 0 14 24
8
end_operator
begin_operator
walk p-out-10 p-in-01
0
1
0 0 15 0
13
end_operator
begin_operator
walk p-out-10 p-in-02
0
1
0 0 15 1
13
end_operator
begin_operator
walk p-out-10 p-in-03
0
1
0 0 15 2
12
end_operator
begin_operator
walk p-out-10 p-in-04
0
1
0 0 15 3
12
end_operator
begin_operator
walk p-out-10 p-in-05
0
1
0 0 15 4
11
end_operator
begin_operator
walk p-out-10 p-in-06
0
1
0 0 15 5
12
end_operator
begin_operator
walk p-out-10 p-out-01
0
1
0 0 15 6
8
end_operator
begin_operator
walk p-out-10 p-out-02
0
1
0 0 15 7
8
end_operator
begin_operator
walk p-out-10 p-out-03
0
1
0 0 15 8
9
end_operator
begin_operator
walk p-out-10 p-out-04
0
1
0 0 15 9
9
end_operator
begin_operator
walk p-out-10 p-out-05
0
1
0 0 15 10
8
end_operator
begin_operator
walk p-out-10 p-out-06
0
1
0 0 15 11
7
end_operator
begin_operator
walk p-out-10 p-out-07
0
1
0 0 15 12
7
end_operator
begin_operator
walk p-out-10 p-out-08
0
1
0 0 15 13
6
end_operator
begin_operator
walk p-out-10 p-out-09
0
1
0 0 15 14
5
end_operator
begin_operator
walk p-out-10 p-out-11
0
1
0 0 15 16
1
end_operator
begin_operator
walk p-out-10 p-out-12
0
1
0 0 15 17
1
end_operator
begin_operator
walk p-out-10 p-out-13
0
1
0 0 15 18
2
end_operator
begin_operator
walk p-out-10 p-out-14
0
1
0 0 15 19
3
end_operator
begin_operator
walk p-out-10 p-out-15
0
1
0 0 15 20
3
end_operator
begin_operator
walk p-out-10 p-out-16
0
1
0 0 15 21
4
end_operator
begin_operator
walk p-out-10 p-out-17
0
1
0 0 15 22
5
end_operator
begin_operator
walk p-out-10 p-out-18
0
1
0 0 15 23
5
end_operator
begin_operator
walk p-out-10 p-out-19
0
1
0 0 15 24
6
end_operator
begin_operator
walk p-out-11 p-in-01
0
1
0 0 16 0
14
end_operator
begin_operator
walk p-out-11 p-in-02
0
1
0 0 16 1
13
end_operator
begin_operator
walk p-out-11 p-in-03
0
1
0 0 16 2
13
end_operator
begin_operator
walk p-out-11 p-in-04
0
1
0 0 16 3
12
end_operator
begin_operator
walk p-out-11 p-in-05
0
1
0 0 16 4
12
end_operator
begin_operator
walk p-out-11 p-in-06
0
1
0 0 16 5
12
end_operator
begin_operator
walk p-out-11 p-out-01
0
1
0 0 16 6
7
end_operator
begin_operator
walk p-out-11 p-out-02
0
1
0 0 16 7
8
end_operator
begin_operator
walk p-out-11 p-out-03
0
1
0 0 16 8
8
end_operator
begin_operator
walk p-out-11 p-out-04
0
1
0 0 16 9
9
end_operator
begin_operator
walk p-out-11 p-out-05
0
1
0 0 16 10
8
end_operator
begin_operator
walk p-out-11 p-out-06
0
1
0 0 16 11
8
end_operator
begin_operator
walk p-out-11 p-out-07
0
1
0 0 16 12
7
end_operator
begin_operator
walk p-out-11 p-out-08
0
1
0 0 16 13
7
end_operator
begin_operator
walk p-out-11 p-out-09
0
1
0 0 16 14
6
end_operator
begin_operator
walk p-out-11 p-out-10
0
1
0 0 16 15
1
end_operator
begin_operator
walk p-out-11 p-out-12
0
1
0 0 16 17
1
end_operator
begin_operator
walk p-out-11 p-out-13
0
1
0 0 16 18
2
end_operator
begin_operator
walk p-out-11 p-out-14
0
1
0 0 16 19
2
end_operator
begin_operator
walk p-out-11 p-out-15
0
1
0 0 16 20
3
end_operator
begin_operator
walk p-out-11 p-out-16
0
1
0 0 16 21
3
end_operator
begin_operator
walk p-out-11 p-out-17
0
1
0 0 16 22
4
end_operator
begin_operator
walk p-out-11 p-out-18
0
1
0 0 16 23
5
end_operator
begin_operator
walk p-out-11 p-out-19
0
1
0 0 16 24
6
end_operator
begin_operator
walk p-out-12 p-in-01
0
1
0 0 17 0
14
end_operator
begin_operator
walk p-out-12 p-in-02
0
1
0 0 17 1
14
end_operator
begin_operator
walk p-out-12 p-in-03
0
1
0 0 17 2
13
end_operator
begin_operator
walk p-out-12 p-in-04
0
1
0 0 17 3
13
end_operator
begin_operator
walk p-out-12 p-in-05
0
1
0 0 17 4
12
end_operator
begin_operator
walk p-out-12 p-in-06
0
1
0 0 17 5
13
end_operator
begin_operator
walk p-out-12 p-out-01
0
1
0 0 17 6
7
end_operator
begin_operator
walk p-out-12 p-out-02
0
1
0 0 17 7
7
end_operator
begin_operator
walk p-out-12 p-out-03
0
1
0 0 17 8
8
end_operator
begin_operator
walk p-out-12 p-out-04
0
1
0 0 17 9
8
end_operator
begin_operator
walk p-out-12 p-out-05
0
1
0 0 17 10
9
end_operator
begin_operator
walk p-out-12 p-out-06
0
1
0 0 17 11
8
end_operator
begin_operator
walk p-out-12 p-out-07
0
1
0 0 17 12
8
end_operator
begin_operator
walk p-out-12 p-out-08
0
1
0 0 17 13
7
end_operator
begin_operator
walk p-out-12 p-out-09
0
1
0 0 17 14
6
end_operator
begin_operator
walk p-out-12 p-out-10
0
1
0 0 17 15
1
end_operator
begin_operator
walk p-out-12 p-out-11
0
1
0 0 17 16
1
end_operator
begin_operator
walk p-out-12 p-out-13
0
1
0 0 17 18
1
end_operator
begin_operator
walk p-out-12 p-out-14
0
1
0 0 17 19
2
end_operator
begin_operator
walk p-out-12 p-out-15
0
1
0 0 17 20
2
end_operator
begin_operator
walk p-out-12 p-out-16
0
1
0 0 17 21
3
end_operator
begin_operator
walk p-out-12 p-out-17
0
1
0 0 17 22
4
end_operator
begin_operator
walk p-out-12 p-out-18
0
1
0 0 17 23
4
end_operator
begin_operator
walk p-out-12 p-out-19
0
1
0 0 17 24
5
end_operator
begin_operator
walk p-out-13 p-in-01
0
1
0 0 18 0
15
end_operator
begin_operator
walk p-out-13 p-in-02
0
1
0 0 18 1
15
end_operator
begin_operator
walk p-out-13 p-in-03
0
1
0 0 18 2
14
end_operator
begin_operator
walk p-out-13 p-in-04
0
1
0 0 18 3
14
end_operator
begin_operator
walk p-out-13 p-in-05
0
1
0 0 18 4
13
end_operator
begin_operator
walk p-out-13 p-in-06
0
1
0 0 18 5
14
end_operator
begin_operator
walk p-out-13 p-out-01
0
1
0 0 18 6
6
end_operator
begin_operator
walk p-out-13 p-out-02
0
1
0 0 18 7
6
end_operator
begin_operator
walk p-out-13 p-out-03
0
1
0 0 18 8
7
end_operator
begin_operator
walk p-out-13 p-out-04
0
1
0 0 18 9
7
end_operator
begin_operator
walk p-out-13 p-out-05
0
1
0 0 18 10
10
end_operator
begin_operator
walk p-out-13 p-out-06
0
1
0 0 18 11
9
end_operator
begin_operator
walk p-out-13 p-out-07
0
1
0 0 18 12
9
end_operator
begin_operator
walk p-out-13 p-out-08
0
1
0 0 18 13
8
end_operator
begin_operator
walk p-out-13 p-out-09
0
1
0 0 18 14
7
end_operator
begin_operator
walk p-out-13 p-out-10
0
1
0 0 18 15
2
end_operator
begin_operator
walk p-out-13 p-out-11
0
1
0 0 18 16
2
end_operator
begin_operator
walk p-out-13 p-out-12
0
1
0 0 18 17
1
end_operator
begin_operator
walk p-out-13 p-out-14
0
1
0 0 18 19
1
end_operator
begin_operator
walk p-out-13 p-out-15
0
1
0 0 18 20
1
end_operator
begin_operator
walk p-out-13 p-out-16
0
1
0 0 18 21
2
end_operator
begin_operator
walk p-out-13 p-out-17
0
1
0 0 18 22
3
end_operator
begin_operator
walk p-out-13 p-out-18
0
1
0 0 18 23
3
end_operator
begin_operator
walk p-out-13 p-out-19
0
1
0 0 18 24
4
end_operator
begin_operator
walk p-out-14 p-in-01
0
1
0 0 19 0
16
end_operator
begin_operator
walk p-out-14 p-in-02
0
1
0 0 19 1
15
end_operator
begin_operator
walk p-out-14 p-in-03
0
1
0 0 19 2
15
end_operator
begin_operator
walk p-out-14 p-in-04
0
1
0 0 19 3
14
end_operator
begin_operator
walk p-out-14 p-in-05
0
1
0 0 19 4
14
end_operator
begin_operator
walk p-out-14 p-in-06
0
1
0 0 19 5
14
end_operator
begin_operator
walk p-out-14 p-out-01
0
1
0 0 19 6
5
end_operator
begin_operator
walk p-out-14 p-out-02
0
1
0 0 19 7
6
end_operator
begin_operator
walk p-out-14 p-out-03
0
1
0 0 19 8
6
end_operator
begin_operator
walk p-out-14 p-out-04
0
1
0 0 19 9
7
end_operator
begin_operator
walk p-out-14 p-out-05
0
1
0 0 19 10
9
end_operator
begin_operator
walk p-out-14 p-out-06
0
1
0 0 19 11
10
end_operator
begin_operator
walk p-out-14 p-out-07
0
1
0 0 19 12
9
end_operator
begin_operator
walk p-out-14 p-out-08
0
1
0 0 19 13
9
end_operator
begin_operator
walk p-out-14 p-out-09
0
1
0 0 19 14
8
end_operator
begin_operator
walk p-out-14 p-out-10
0
1
0 0 19 15
3
end_operator
begin_operator
walk p-out-14 p-out-11
0
1
0 0 19 16
2
end_operator
begin_operator
walk p-out-14 p-out-12
0
1
0 0 19 17
2
end_operator
begin_operator
walk p-out-14 p-out-13
0
1
0 0 19 18
1
end_operator
begin_operator
walk p-out-14 p-out-15
0
1
0 0 19 20
1
end_operator
begin_operator
walk p-out-14 p-out-16
0
1
0 0 19 21
1
end_operator
begin_operator
walk p-out-14 p-out-17
0
1
0 0 19 22
2
end_operator
begin_operator
walk p-out-14 p-out-18
0
1
0 0 19 23
3
end_operator
begin_operator
walk p-out-14 p-out-19
0
1
0 0 19 24
4
end_operator
begin_operator
walk p-out-15 p-in-01
0
1
0 0 20 0
16
end_operator
begin_operator
walk p-out-15 p-in-02
0
1
0 0 20 1
16
end_operator
begin_operator
walk p-out-15 p-in-03
0
1
0 0 20 2
15
end_operator
begin_operator
walk p-out-15 p-in-04
0
1
0 0 20 3
15
end_operator
begin_operator
walk p-out-15 p-in-05
0
1
0 0 20 4
14
end_operator
begin_operator
walk p-out-15 p-in-06
0
1
0 0 20 5
15
end_operator
begin_operator
walk p-out-15 p-out-01
0
1
0 0 20 6
5
end_operator
begin_operator
walk p-out-15 p-out-02
0
1
0 0 20 7
5
end_operator
begin_operator
walk p-out-15 p-out-03
0
1
0 0 20 8
6
end_operator
begin_operator
walk p-out-15 p-out-04
0
1
0 0 20 9
6
end_operator
begin_operator
walk p-out-15 p-out-05
0
1
0 0 20 10
9
end_operator
begin_operator
walk p-out-15 p-out-06
0
1
0 0 20 11
9
end_operator
begin_operator
walk p-out-15 p-out-07
0
1
0 0 20 12
10
end_operator
begin_operator
walk p-out-15 p-out-08
0
1
0 0 20 13
9
end_operator
begin_operator
walk p-out-15 p-out-09
0
1
0 0 20 14
8
end_operator
begin_operator
walk p-out-15 p-out-10
0
1
0 0 20 15
3
end_operator
begin_operator
walk p-out-15 p-out-11
0
1
0 0 20 16
3
end_operator
begin_operator
walk p-out-15 p-out-12
0
1
0 0 20 17
2
end_operator
begin_operator
walk p-out-15 p-out-13
0
1
0 0 20 18
1
end_operator
begin_operator
walk p-out-15 p-out-14
0
1
0 0 20 19
1
end_operator
begin_operator
walk p-out-15 p-out-16
0
1
0 0 20 21
1
end_operator
begin_operator
walk p-out-15 p-out-17
0
1
0 0 20 22
2
end_operator
begin_operator
walk p-out-15 p-out-18
0
1
0 0 20 23
2
end_operator
begin_operator
walk p-out-15 p-out-19
0
1
0 0 20 24
3
end_operator
begin_operator
walk p-out-16 p-in-01
0
1
0 0 21 0
16
end_operator
begin_operator
walk p-out-16 p-in-02
0
1
0 0 21 1
16
end_operator
begin_operator
walk p-out-16 p-in-03
0
1
0 0 21 2
15
end_operator
begin_operator
walk p-out-16 p-in-04
0
1
0 0 21 3
15
end_operator
begin_operator
walk p-out-16 p-in-05
0
1
0 0 21 4
14
end_operator
begin_operator
walk p-out-16 p-in-06
0
1
0 0 21 5
15
end_operator
begin_operator
walk p-out-16 p-out-01
0
1
0 0 21 6
4
end_operator
begin_operator
walk p-out-16 p-out-02
0
1
0 0 21 7
5
end_operator
begin_operator
walk p-out-16 p-out-03
0
1
0 0 21 8
5
end_operator
begin_operator
walk p-out-16 p-out-04
0
1
0 0 21 9
6
end_operator
begin_operator
walk p-out-16 p-out-05
0
1
0 0 21 10
8
end_operator
begin_operator
walk p-out-16 p-out-06
0
1
0 0 21 11
9
end_operator
begin_operator
walk p-out-16 p-out-07
0
1
0 0 21 12
10
end_operator
begin_operator
walk p-out-16 p-out-08
0
1
0 0 21 13
10
end_operator
begin_operator
walk p-out-16 p-out-09
0
1
0 0 21 14
9
end_operator
begin_operator
walk p-out-16 p-out-10
0
1
0 0 21 15
4
end_operator
begin_operator
walk p-out-16 p-out-11
0
1
0 0 21 16
3
end_operator
begin_operator
walk p-out-16 p-out-12
0
1
0 0 21 17
3
end_operator
begin_operator
walk p-out-16 p-out-13
0
1
0 0 21 18
2
end_operator
begin_operator
walk p-out-16 p-out-14
0
1
0 0 21 19
1
end_operator
begin_operator
walk p-out-16 p-out-15
0
1
0 0 21 20
1
end_operator
begin_operator
walk p-out-16 p-out-17
0
1
0 0 21 22
1
end_operator
begin_operator
walk p-out-16 p-out-18
0
1
0 0 21 23
2
end_operator
begin_operator
walk p-out-16 p-out-19
0
1
0 0 21 24
3
end_operator
begin_operator
walk p-out-17 p-in-01
0
1
0 0 22 0
15
end_operator
begin_operator
walk p-out-17 p-in-02
0
1
0 0 22 1
15
end_operator
begin_operator
walk p-out-17 p-in-03
0
1
0 0 22 2
14
end_operator
begin_operator
walk p-out-17 p-in-04
0
1
0 0 22 3
14
end_operator
begin_operator
walk p-out-17 p-in-05
0
1
0 0 22 4
13
end_operator
begin_operator
walk p-out-17 p-in-06
0
1
0 0 22 5
14
end_operator
begin_operator
walk p-out-17 p-out-01
0
1
0 0 22 6
3
end_operator
begin_operator
walk p-out-17 p-out-02
0
1
0 0 22 7
4
end_operator
begin_operator
walk p-out-17 p-out-03
0
1
0 0 22 8
4
end_operator
begin_operator
walk p-out-17 p-out-04
0
1
0 0 22 9
5
end_operator
begin_operator
walk p-out-17 p-out-05
0
1
0 0 22 10
7
end_operator
begin_operator
walk p-out-17 p-out-06
0
1
0 0 22 11
8
end_operator
begin_operator
walk p-out-17 p-out-07
0
1
0 0 22 12
9
end_operator
begin_operator
walk p-out-17 p-out-08
0
1
0 0 22 13
9
end_operator
begin_operator
walk p-out-17 p-out-09
0
1
0 0 22 14
10
end_operator
begin_operator
walk p-out-17 p-out-10
0
1
0 0 22 15
5
end_operator
begin_operator
walk p-out-17 p-out-11
0
1
0 0 22 16
4
end_operator
begin_operator
walk p-out-17 p-out-12
0
1
0 0 22 17
4
end_operator
begin_operator
walk p-out-17 p-out-13
0
1
0 0 22 18
3
end_operator
begin_operator
walk p-out-17 p-out-14
0
1
0 0 22 19
2
end_operator
begin_operator
walk p-out-17 p-out-15
0
1
0 0 22 20
2
end_operator
begin_operator
walk p-out-17 p-out-16
0
1
0 0 22 21
1
end_operator
begin_operator
walk p-out-17 p-out-18
0
1
0 0 22 23
1
end_operator
begin_operator
walk p-out-17 p-out-19
0
1
0 0 22 24
2
end_operator
begin_operator
walk p-out-18 p-in-01
0
1
0 0 23 0
15
end_operator
begin_operator
walk p-out-18 p-in-02
0
1
0 0 23 1
14
end_operator
begin_operator
walk p-out-18 p-in-03
0
1
0 0 23 2
14
end_operator
begin_operator
walk p-out-18 p-in-04
0
1
0 0 23 3
13
end_operator
begin_operator
walk p-out-18 p-in-05
0
1
0 0 23 4
13
end_operator
begin_operator
walk p-out-18 p-in-06
0
1
0 0 23 5
13
end_operator
begin_operator
walk p-out-18 p-out-01
0
1
0 0 23 6
3
end_operator
begin_operator
walk p-out-18 p-out-02
0
1
0 0 23 7
3
end_operator
begin_operator
walk p-out-18 p-out-03
0
1
0 0 23 8
4
end_operator
begin_operator
walk p-out-18 p-out-04
0
1
0 0 23 9
4
end_operator
begin_operator
walk p-out-18 p-out-05
0
1
0 0 23 10
7
end_operator
begin_operator
walk p-out-18 p-out-06
0
1
0 0 23 11
7
end_operator
begin_operator
walk p-out-18 p-out-07
0
1
0 0 23 12
8
end_operator
begin_operator
walk p-out-18 p-out-08
0
1
0 0 23 13
8
end_operator
begin_operator
walk p-out-18 p-out-09
0
1
0 0 23 14
9
end_operator
begin_operator
walk p-out-18 p-out-10
0
1
0 0 23 15
5
end_operator
begin_operator
walk p-out-18 p-out-11
0
1
0 0 23 16
5
end_operator
begin_operator
walk p-out-18 p-out-12
0
1
0 0 23 17
4
end_operator
begin_operator
walk p-out-18 p-out-13
0
1
0 0 23 18
3
end_operator
begin_operator
walk p-out-18 p-out-14
0
1
0 0 23 19
3
end_operator
begin_operator
walk p-out-18 p-out-15
0
1
0 0 23 20
2
end_operator
begin_operator
walk p-out-18 p-out-16
0
1
0 0 23 21
2
end_operator
begin_operator
walk p-out-18 p-out-17
0
1
0 0 23 22
1
end_operator
begin_operator
walk p-out-18 p-out-19
0
1
0 0 23 24
1
end_operator
begin_operator
walk p-out-19 p-in-01
0
1
0 0 24 0
14
end_operator
begin_operator
walk p-out-19 p-in-02
0
1
0 0 24 1
13
end_operator
begin_operator
walk p-out-19 p-in-03
0
1
0 0 24 2
13
end_operator
begin_operator
walk p-out-19 p-in-04
0
1
0 0 24 3
12
end_operator
begin_operator
walk p-out-19 p-in-05
0
1
0 0 24 4
12
end_operator
begin_operator
walk p-out-19 p-in-06
0
1
0 0 24 5
12
end_operator
begin_operator
walk p-out-19 p-out-01
0
1
0 0 24 6
2
end_operator
begin_operator
walk p-out-19 p-out-02
0
1
0 0 24 7
2
end_operator
begin_operator
walk p-out-19 p-out-03
0
1
0 0 24 8
3
end_operator
begin_operator
walk p-out-19 p-out-04
0
1
0 0 24 9
3
end_operator
begin_operator
walk p-out-19 p-out-05
0
1
0 0 24 10
6
end_operator
begin_operator
walk p-out-19 p-out-06
0
1
0 0 24 11
6
end_operator
begin_operator
walk p-out-19 p-out-07
0
1
0 0 24 12
7
end_operator
begin_operator
walk p-out-19 p-out-08
0
1
0 0 24 13
7
end_operator
begin_operator
walk p-out-19 p-out-09
0
1
0 0 24 14
8
end_operator
begin_operator
walk p-out-19 p-out-10
0
1
0 0 24 15
6
end_operator
begin_operator
walk p-out-19 p-out-11
0
1
0 0 24 16
6
end_operator
begin_operator
walk p-out-19 p-out-12
0
1
0 0 24 17
5
end_operator
begin_operator
walk p-out-19 p-out-13
0
1
0 0 24 18
4
end_operator
begin_operator
walk p-out-19 p-out-14
0
1
0 0 24 19
4
end_operator
begin_operator
walk p-out-19 p-out-15
0
1
0 0 24 20
3
end_operator
begin_operator
walk p-out-19 p-out-16
0
1
0 0 24 21
3
end_operator
begin_operator
walk p-out-19 p-out-17
0
1
0 0 24 22
2
end_operator
begin_operator
walk p-out-19 p-out-18
0
1
0 0 24 23
1
end_operator
4
begin_rule
152
255 0
2 0
3 0
97 0
254 0
53 0
220 0
134 0
135 0
27 0
224 0
239 0
203 0
202 0
30 0
4 0
5 0
128 0
109 0
98 0
253 0
251 0
158 0
108 0
122 0
155 0
69 0
86 0
178 0
115 0
6 0
219 0
7 0
32 0
31 0
217 0
215 0
198 0
8 0
99 0
151 0
131 0
9 0
10 0
100 0
101 0
136 0
58 0
68 0
226 0
19 0
11 0
20 0
188 0
225 0
28 0
214 0
245 0
242 0
112 0
78 0
250 0
213 0
212 0
33 0
85 0
223 0
222 0
123 0
201 0
59 0
70 0
197 0
116 0
211 0
117 0
233 0
204 0
102 0
145 0
137 0
118 0
241 0
29 0
79 0
54 0
80 0
55 0
81 0
56 0
82 0
57 0
236 0
234 0
191 0
196 0
208 0
210 0
206 0
1 0
232 0
74 0
12 0
171 0
181 0
170 0
167 0
119 0
169 0
156 0
229 0
120 0
73 0
34 0
138 0
195 0
194 0
37 0
162 0
38 0
252 0
237 0
172 0
154 0
184 0
40 0
77 0
249 0
45 0
142 0
228 0
243 0
247 0
149 0
127 0
147 0
153 0
91 0
94 0
111 0
133 0
87 0
163 0
179 0
139 0
173 0
246 1
175 1
168 1
161 1
182 1
35 1
256 1 0
end_rule
begin_rule
152
255 0
2 0
3 0
97 0
254 0
53 0
220 0
134 0
135 0
27 0
224 0
239 0
203 0
202 0
30 0
4 0
5 0
128 0
109 0
98 0
253 0
251 0
158 0
108 0
122 0
155 0
69 0
86 0
178 0
115 0
6 0
219 0
7 0
32 0
31 0
217 0
215 0
198 0
8 0
99 0
151 0
131 0
9 0
10 0
100 0
101 0
136 0
58 0
68 0
226 0
19 0
11 0
20 0
188 0
225 0
28 0
214 0
245 0
242 0
112 0
78 0
250 0
213 0
212 0
33 0
85 0
223 0
222 0
123 0
201 0
59 0
70 0
197 0
116 0
211 0
117 0
233 0
204 0
102 0
145 0
137 0
118 0
241 0
29 0
79 0
54 0
80 0
55 0
81 0
56 0
82 0
57 0
236 0
234 0
191 0
196 0
208 0
210 0
206 0
1 0
232 0
74 0
12 0
171 0
181 0
170 0
167 0
119 0
169 0
156 0
229 0
120 0
73 0
34 0
138 0
195 0
194 0
37 0
162 0
38 0
252 0
237 0
172 0
154 0
184 0
40 0
77 0
249 0
45 0
142 0
227 0
243 0
247 0
149 0
127 0
147 0
153 0
91 0
94 0
111 0
133 0
87 0
163 0
179 0
139 0
173 0
246 1
175 1
168 1
161 1
182 1
35 1
256 1 0
end_rule
begin_rule
152
255 0
2 0
3 0
97 0
254 0
53 0
220 0
134 0
135 0
27 0
224 0
239 0
203 0
202 0
30 0
4 0
5 0
128 0
109 0
98 0
253 0
251 0
158 0
108 0
122 0
155 0
69 0
86 0
178 0
115 0
6 0
219 0
7 0
32 0
31 0
217 0
215 0
198 0
8 0
99 0
151 0
131 0
9 0
10 0
100 0
101 0
136 0
58 0
68 0
226 0
19 0
11 0
20 0
188 0
225 0
28 0
214 0
245 0
242 0
112 0
78 0
250 0
213 0
212 0
33 0
85 0
223 0
222 0
123 0
201 0
59 0
70 0
197 0
116 0
211 0
117 0
233 0
204 0
102 0
145 0
137 0
118 0
241 0
29 0
79 0
54 0
80 0
55 0
81 0
56 0
82 0
57 0
236 0
234 0
191 0
196 0
208 0
210 0
206 0
1 0
232 0
74 0
12 0
171 0
181 0
170 0
167 0
119 0
169 0
156 0
229 0
120 0
73 0
34 0
138 0
195 0
194 0
37 0
162 0
38 0
252 0
237 0
172 0
154 0
184 0
40 0
77 0
238 0
45 0
142 0
228 0
243 0
247 0
149 0
127 0
147 0
153 0
91 0
94 0
111 0
133 0
87 0
163 0
179 0
139 0
173 0
246 1
175 1
168 1
161 1
182 1
35 1
256 1 0
end_rule
begin_rule
152
255 0
2 0
3 0
97 0
254 0
53 0
220 0
134 0
135 0
27 0
224 0
239 0
203 0
202 0
30 0
4 0
5 0
128 0
109 0
98 0
253 0
251 0
158 0
108 0
122 0
155 0
69 0
86 0
178 0
115 0
6 0
219 0
7 0
32 0
31 0
217 0
215 0
198 0
8 0
99 0
151 0
131 0
9 0
10 0
100 0
101 0
136 0
58 0
68 0
226 0
19 0
11 0
20 0
188 0
225 0
28 0
214 0
245 0
242 0
112 0
78 0
250 0
213 0
212 0
33 0
85 0
223 0
222 0
123 0
201 0
59 0
70 0
197 0
116 0
211 0
117 0
233 0
204 0
102 0
145 0
137 0
118 0
241 0
29 0
79 0
54 0
80 0
55 0
81 0
56 0
82 0
57 0
236 0
234 0
191 0
196 0
208 0
210 0
206 0
1 0
232 0
74 0
12 0
171 0
181 0
170 0
167 0
119 0
169 0
156 0
229 0
120 0
73 0
34 0
138 0
195 0
194 0
37 0
162 0
38 0
252 0
237 0
172 0
154 0
184 0
40 0
77 0
238 0
45 0
142 0
227 0
243 0
247 0
149 0
127 0
147 0
153 0
91 0
94 0
111 0
133 0
87 0
163 0
179 0
139 0
173 0
246 1
175 1
168 1
161 1
182 1
35 1
256 1 0
end_rule
