import { citations } from './citations'
import type { FieldWords } from '../fields'
import type { Format } from '../../format'
import type { ShownFields } from './shownFields'

/** Numbers of the plan's catalogue whose fields are folded at first: label, what it is, and where it comes from. */
export const fieldsIn = ({ height, measure, units }: Format): Omit<FieldWords, keyof ShownFields> => {
  const inUnits = (metric: string, imperial: string) => (units === 'metric' ? metric : imperial)
  const celsius = (value: number) => measure(value, 'temperature')
  const passageSpeed = inUnits('6 m/s', '13 mph')
  return {
    rider: {
      mass: {
        label: 'Rider, dressed',
        meaning: 'Body, clothes and shoes.',
        source: 'A scale.',
        belief: 'Judgement: clothes, meals, another scale.',
      },
      power: {
        label: 'Steady power',
        meaning: 'What you put on the pedals on the flat, for hours.',
        source: 'A power meter, or try: touring riders give 80 to 150 W.',
        belief: 'Judgement: form of the day, and power never measured.',
      },
      climbFactor: {
        label: 'Effort on climbs',
        meaning: 'Power on climbs against the flat; reached at 5 %, none extra below 1 %.',
        source: 'A choice; many riders push a third harder uphill.',
      },
      coastingSpeed: {
        label: 'Stop pedalling above',
        meaning: `From here pedalling fades out over the next ${inUnits('2 km/h', '1.2 mph')}.`,
        source: 'A choice.',
      },
      criticalPower: {
        label: 'Critical power',
        meaning: 'The power that could be held for about an hour; decides how fast you tire.',
        source: 'A test of 3 to 20 minutes (Monod and Scherrer 1965); 180 W is a choice.',
      },
      fade: {
        label: 'Tiring over the day',
        meaning: 'Power lost for each hour’s work at critical power: less than half as much an hour at an easy pace.',
        source: `${citations.clark}: 9 % in two hours unfed, 2 % fed. That ridden power follows measured capacity is an assumption.`,
        belief:
          'Judgement on Clark et al. 2019: 1.4 % fed to 5.7 % unfed; professionals and a 24 h record 2.1 to 4.5 %.',
      },
      smallHalts: {
        label: `Small halts, each 100 ${inUnits('km', 'miles')}`,
        meaning: 'Lights, gates, a photograph, a bottle: time that no stop of the plan shows.',
        source: 'Last year’s recording: elapsed less moving time less the planned stops.',
        belief: 'Judgement.',
      },
    },
    bike: {
      mass: {
        label: 'Bike without packs',
        meaning: 'Bike, racks and lights, without battery packs and luggage.',
        source: 'A scale.',
        belief: 'Judgement: what a maker states is without rack, lights and mud.',
      },
      luggage: {
        label: 'Luggage and water',
        meaning: 'Everything carried that is neither bike, pack nor rider.',
        source: 'A scale.',
        belief: 'Judgement: luggage is added up, rarely weighed.',
      },
      dragArea: {
        label: 'Drag area (CdA)',
        meaning: 'Frontal area times drag coefficient, rider and bags.',
        source: 'Tengattini and Bigazzi 2018: urban riders 0.56 ± 0.17 m², and bags.',
        belief: `Between bikes and riders, SD 0.170 m²: ${citations.tengattini}.`,
      },
      rolling: {
        label: 'Rolling coefficient (Crr)',
        meaning: 'Tyres on average asphalt.',
        source: 'Tengattini and Bigazzi 2018: 0.0077 ± 0.0036.',
        belief: `Between bikes, SD 0.0036: ${citations.tengattini}.`,
      },
      surfaceFactor: {
        label: 'Surface factor',
        meaning: 'Multiplies rolling: 75 % very smooth, 125 % rough asphalt, 150 % packed gravel.',
        source: 'Ratios of handbook coefficients by surface; judgement.',
      },
      topSpeed: {
        label: 'Fastest downhill',
        meaning: 'You brake rather than pass this speed.',
        source: 'A choice.',
      },
      lateralAcceleration: {
        label: 'Bends',
        meaning: 'Sideways acceleration accepted in bends.',
        source: 'FHWA-HRT-04-103, table 19: 1.8 to 2.6 m/s² on 15 to 25 m radius.',
      },
      braking: {
        label: 'Braking',
        meaning: 'Comfortable deceleration before bends and stops.',
        source: 'From memory of cycle-road design guides; 2.45 m/s² is a wet design stop.',
      },
      drivetrain: {
        label: 'Chain efficiency',
        meaning: 'Share of pedal power that reaches the wheel.',
        source: 'Smit et al. 2023: 97.9 % when clean; less for dirt.',
      },
      rotatingMass: {
        label: 'Rotating mass',
        meaning: 'Extra inertia of the wheels, as mass at the rim.',
        source: 'Martin et al. 1998 give 1.45 kg for light wheels (from memory); heavier tyres here.',
      },
      wheelRadius: {
        label: 'Wheel radius',
        meaning: 'Rolling radius of the driven wheel.',
        source: `A tape measure; ${inUnits('0.35 m', '13.8 in')} is 28 inches with a wide tyre.`,
      },
    },
    pedalling: {
      cadence: {
        label: 'Cadence you like',
        meaning: 'Turns of the cranks a minute, as long as a gear for it is left.',
        source: 'A choice; many riders turn at 70 to 90.',
      },
      lowestGear: {
        label: 'Lowest gear',
        meaning: 'Teeth of the smallest ring in front over those of the largest sprocket.',
        source: 'Count the teeth: 38 over 38 is 1.',
      },
      crankLength: {
        label: 'Crank',
        meaning: 'From the axle to the pedal’s axle.',
        source: 'Printed on its inner side.',
      },
    },
    knee: {
      mostTorque: {
        label: 'Torque to keep below',
        meaning: 'Mean torque at the cranks that you were told to keep below; empty where there is none.',
        source: 'The one who treats your knee.',
      },
    },
    assist: {
      ratio: {
        label: 'Assist on the flat',
        meaning: 'Motor power for each watt of yours.',
        source: 'A choice; 0 % is no motor.',
      },
      climbRatio: {
        label: 'Assist on climbs',
        meaning: 'The same on climbs; reached at 5 %, blended from 1 %.',
        source: 'A choice.',
      },
      limitSpeed: {
        label: 'Assist ends at',
        meaning: `Legal limit of the motor; it fades out over the last ${inUnits('2 km/h', '1.2 mph')}.`,
        source: 'EN 15194: 25 km/h. 36 CFR 1.4: 20 or 28 mph. Local law decides.',
      },
      peakPower: {
        label: 'Motor, greatest power',
        meaning: 'Mechanical, for a climb; not the rated continuous power.',
        source: 'From memory: 400 to 600 W for motors rated 250 W.',
      },
      torque: {
        label: 'Torque at the wheel',
        meaning: 'Greatest torque of the motor, as it arrives at the wheel.',
        source: 'The maker’s figure, geared down.',
      },
      lossFactor: {
        label: 'Motor losses',
        meaning: 'Against the built-in curve: 0.0013 W for each W squared up to 200 W, then 79 % efficient.',
        source:
          'Fitted to one measured mid-drive, 2024, up to 202 W; above by common practice, 75 to 80 % near the peak.',
        belief: 'Judgement: one ride of one motor was measured.',
      },
      electronics: {
        label: 'Electronics',
        meaning: 'Display, controller and chargers on the bike, while moving.',
        source: 'Judgement: 2 to 10 W.',
      },
      lights: {
        label: 'Lamps',
        meaning: 'Drawn from the pack all the way; 0 is off.',
        source: 'The lamp’s label.',
      },
    },
    weather: {
      temperatureCelsius: {
        label: 'Air at the start',
        meaning: 'At the height of the start; falls with height.',
        source: `The forecast. ${celsius(15)} is the standard atmosphere.`,
        belief: 'Twelve weather models against stations, matrunich.com, spring 2026: 1.2 to 2.2 K in the mean.',
      },
      windSpeed: {
        label: 'Wind',
        meaning: `Mean at ${height(10)} height, as forecasts give it.`,
        source: 'The forecast.',
        belief: 'Twelve weather models against stations, matrunich.com, spring 2026: 1.5 to 2.4 m/s rms.',
      },
      windFromDegrees: {
        label: 'Wind from',
        meaning: 'Where it comes from: 0 is north, 90 east.',
        source: 'The forecast.',
        belief:
          'Twelve weather models against stations, matrunich.com, spring 2026: 22 to 49° in the mean, light winds counted.',
      },
      seaLevelPressure: {
        label: 'Pressure at sea level',
        meaning: 'As on a weather map; decides with temperature how thick the air is.',
        source: 'The forecast. ISO 2533: 1013.25 hPa.',
      },
      humidity: {
        label: 'Humidity',
        meaning: 'Relative humidity of the air.',
        source: 'The forecast.',
      },
      lapseRate: {
        label: 'Cooling with height',
        meaning: 'Temperature lost for each metre of height.',
        source: inUnits('ISO 2533: 6.5 K for each km.', 'ISO 2533: 6.5 K for each km, 3.6 °F for each 1,000 ft.'),
      },
    },
    battery: {
      reserve: {
        label: 'Reserve',
        meaning: 'Charge of all packs together that you refuse to go below before the finish.',
        source: 'A choice.',
      },
      temperatureCelsius: {
        label: 'Packs’ temperature',
        meaning: 'Cold raises resistance and takes capacity.',
        source: 'Kept indoors, then air temperature and some own heat.',
      },
      swapTime: {
        label: 'Time for a swap',
        meaning: 'Halt to change to the next pack where one is used up.',
        source: 'A choice.',
      },
    },
    pack: {
      series: {
        label: 'Cells in series',
        meaning: 'Decides the voltage: 10 of the NMC type are 36 V nominal, 42 V full.',
        source: 'The label: nominal voltage over 3.6 V (LFP 3.2 V).',
      },
      capacityAh: {
        label: 'Rated capacity',
        meaning: 'Ampere-hours when new; 13.9 Ah at 36 V are 500 Wh.',
        source: 'The label (IEC 61960: at a fifth of an hour’s rate, 20 °C).',
      },
      charge: {
        label: 'Charge when last read',
        meaning: 'Of all the pack holds, before its time in store.',
        source: 'Its display.',
      },
      health: {
        label: 'Health',
        meaning: 'Capacity left against new.',
        source: 'A measured full discharge; 85 % is a common guess for a used pack.',
        belief: 'Judgement: rarely measured, and new cells vary by 2 %.',
      },
      mass: {
        label: 'Mass',
        meaning: 'Pack with its case and mount.',
        source: 'A scale.',
      },
      storage: {
        label: 'In store since then',
        meaning: 'Since its charge was read: it loses some by itself and to its protection board.',
        source: 'Yours; usually 1 to 3 % of charge a month.',
      },
      boardCurrent: {
        label: 'Draw of its protection board',
        meaning: 'In store: 0.1 mA; 1 to 5 mA with a display or radio.',
        source: 'Protection board data: 20 to 100 µA.',
      },
      floor: {
        label: 'Motor stops at',
        meaning: 'Charge at which the bike cuts the motor; 0 % on display.',
        source: 'Judgement: 90 to 97 % of the rated energy can be used.',
      },
      cellResistance: {
        label: 'Cell resistance × Ah',
        meaning: `Direct-current resistance of one cell times its ampere-hours, at ${celsius(25)}.`,
        source: 'From published discharge curves: 0.13 Ω·Ah NMC type, 0.16 LFP.',
      },
      wiringResistance: {
        label: 'Wiring resistance',
        meaning: 'Protection board, leads and plug.',
        source: 'Judgement: 20 to 50 mΩ.',
      },
      dischargeCurrent: {
        label: 'Greatest current',
        meaning: 'What the pack gives at most; the motor gets less above it.',
        source: 'The label.',
      },
      chargeCurrent: {
        label: 'Greatest charging current',
        meaning: 'What the pack takes at most.',
        source: 'The label; common practice, no source: 4 A standard, 6 A fast.',
      },
    },
    mains: {
      voltage: {
        label: 'Charger voltage',
        meaning: 'Its constant voltage; never above the pack’s full voltage.',
        source: 'The charger’s label.',
      },
      current: {
        label: 'Charger current',
        meaning: 'Its constant current.',
        source: 'The charger’s label; common practice, no source: 4 A standard, 6 A fast.',
      },
      efficiency: {
        label: 'Charger efficiency',
        meaning: 'Energy into the pack for energy from the socket.',
        source: 'Judgement, by analogy with EU 2019/1782.',
      },
    },
    stretch: {
      shelter: {
        label: 'Wind that gets through',
        meaning: 'Share of the wind of open land that reaches you: 0 % in a tunnel or deep wood.',
        source: 'Judgement: about half behind hedges and houses.',
      },
      speedLimit: {
        label: 'No faster than',
        meaning: 'You ride no faster here: a town, a shared path, a rough descent.',
        source: 'A choice, or the sign.',
      },
      assistRatio: {
        label: 'Assist',
        meaning: 'Motor power for each watt of yours, on climbs as on the flat.',
        source: 'A choice; 0 % is no motor.',
      },
    },
    crossing: {
      duration: {
        label: 'Time it takes',
        meaning: 'From arriving to riding on, waiting included.',
        source: `The timetable. Until you set it: 20 minutes and ${passageSpeed}, a guess.`,
      },
    },
    needs: {
      wPrime: {
        label: 'Work above critical power (W′)',
        meaning: 'What you can spend above critical power before you must ease off.',
        source:
          'The same test as critical power. Clark et al. 2019 measured 17.9 and 18.7 kJ in trained groups; 15 kJ is a choice.',
      },
      grossEfficiency: {
        label: 'Gross efficiency',
        meaning: 'Work on the pedals for the energy the body turns over.',
        source: `${citations.moseley}: 19.8 ± 0.6 %, less below 130 W.`,
      },
      carbohydratePerHour: {
        label: 'Carbohydrate',
        meaning: 'What you mean to eat and drink in an hour of the ride.',
        source: `${citations.thomas} (from memory): 30 to 60 g/h, up to 90 g/h beyond 2.5 h; 60 is a choice.`,
      },
      waterCool: {
        label: `Water at ${celsius(10)}`,
        meaning: `What you drink in an hour at ${celsius(10)} and below.`,
        source: 'A choice. Drink to thirst.',
      },
      waterHot: {
        label: `Water at ${celsius(30)}`,
        meaning: `The same at ${celsius(30)} and above; even between.`,
        source: 'A choice. Drink to thirst.',
      },
      gelCarbohydrate: {
        label: 'Carbohydrate in a gel',
        meaning: 'Of one gel.',
        source: 'The label; 25 g is a choice.',
      },
      barCarbohydrate: {
        label: 'Carbohydrate in a bar',
        meaning: 'Of one bar.',
        source: 'The label; 40 g is a choice.',
      },
      barShare: {
        label: 'Bars, of all carbohydrate',
        meaning: 'The rest is gels, or the same in a drink.',
        source: 'A choice.',
      },
      bottle: {
        label: 'Water in a bottle',
        meaning: 'Of one full bottle.',
        source: `The bottle; ${inUnits('0.75 litres', '25 fl oz')} is a choice.`,
      },
    },
    wet: {
      rolling: {
        label: 'Rolling on a wet road',
        meaning: 'Multiplies rolling where the road is wet.',
        source: 'judgement',
      },
      braking: {
        label: 'Braking on a wet road',
        meaning: 'Multiplies the deceleration you brake with, and what you accept in bends.',
        source: 'judgement',
      },
      rain: {
        label: 'Rain that wets the road',
        meaning: 'From here the road is wholly wet; less wets it in part.',
        source: 'judgement',
      },
      dryingTime: {
        label: 'Road dries in',
        meaning: 'From wet to dry after the rain.',
        source: 'judgement',
      },
    },
    passage: {
      boardBefore: {
        label: 'Be there before',
        meaning: 'How long before it leaves you must be there.',
        source: 'Who runs the crossing; 10 minutes is a choice.',
      },
      length: {
        label: 'Until you ride on',
        meaning: 'From leaving to riding on at the other side.',
        source: `The timetable. Until you set it: ${passageSpeed} on the water, a guess.`,
      },
      interval: {
        label: 'Every',
        meaning: 'Time from one sailing to the next.',
        source: 'The timetable.',
      },
    },
    control: {
      speed: {
        label: 'Speed from the start',
        meaning: 'Halts included: the time is the distance at this speed.',
        source: 'The rules of the event.',
      },
    },
    carried: {
      blockCells: {
        label: 'Cells in series in a block',
        meaning: '4 of LFP are 12.8 V nominal, 14.6 V full.',
        source: 'The block’s label: nominal voltage over 3.2 V (NMC type 3.6 V).',
      },
      blockAh: {
        label: 'Capacity of a block',
        meaning: 'Ampere-hours when new.',
        source: 'The block’s label (IEC 61960: at a fifth of an hour’s rate, 20 °C).',
      },
      blocksInSeries: {
        label: 'Blocks in series',
        meaning: 'Raises the voltage.',
        source: 'A choice.',
      },
      blocksInParallel: {
        label: 'Blocks in parallel',
        meaning: 'Raises capacity and current.',
        source: 'A choice.',
      },
      health: {
        label: 'Health',
        meaning: 'Capacity left against new.',
        source: 'A measured full discharge; 85 % is a common guess for used blocks.',
      },
      cellResistance: {
        label: 'Cell resistance × Ah',
        meaning: `Direct-current resistance of one cell times its ampere-hours, at ${celsius(25)}.`,
        source: 'From published discharge curves: 0.16 Ω·Ah LFP, 0.13 NMC type; power cells 0.02 to 0.03.',
      },
      wiringResistance: {
        label: 'Wiring resistance of a block',
        meaning: 'Protection board, leads and plug of one block.',
        source: 'Judgement: 20 to 50 mΩ a pack.',
      },
      dischargeCurrent: {
        label: 'Greatest current of a block',
        meaning: 'What one block gives at most for hours.',
        source: 'The block’s label.',
      },
      lowestCellVoltage: {
        label: 'Lowest voltage of a cell',
        meaning: 'Under load; below it the pack counts as empty. 2.5 V for LFP, 3.0 V for the NMC type.',
        source: 'Cell data sheets and protection boards.',
      },
      blockMass: {
        label: 'Mass of a block',
        meaning: 'With its share of case and leads.',
        source: 'A scale.',
      },
      charge: {
        label: 'Charge when last read',
        meaning: 'Of all the pack holds.',
        source: 'Its charger says when it is full.',
      },
      storage: {
        label: 'In store since then',
        meaning: 'It loses charge by itself and to its protection board.',
        source: 'A choice.',
      },
      boardCurrent: {
        label: 'Draw of a protection board',
        meaning: 'In store, each block: 0.1 mA; 1 to 5 mA with a display or radio.',
        source: 'Protection board data: 20 to 100 µA.',
      },
    },
    converter: {
      voltage: {
        label: 'Set voltage',
        meaning: 'Constant voltage at its output; never above the bike pack’s full voltage.',
        source: 'A meter at its output, before anything is connected.',
      },
      current: {
        label: 'Set current',
        meaning: 'Constant current at its output.',
        source: 'A choice; common practice, no source: 4 A standard, 6 A fast.',
      },
      inputVoltageLeast: {
        label: 'Least input voltage',
        meaning: 'Below it the converter does not run.',
        source: 'The converter’s data sheet.',
      },
      inputVoltageMost: {
        label: 'Greatest input voltage',
        meaning: 'Above it the converter breaks.',
        source: 'The converter’s data sheet.',
      },
      inputCurrent: {
        label: 'Input current, continuous',
        meaning: 'What it draws from the source for hours; empty where only a peak is printed.',
        source: 'The converter’s data sheet.',
      },
      inputPeak: {
        label: 'Input current, peak',
        meaning: 'What it draws for moments; empty where nothing is printed.',
        source: 'Printed on the module: what is printed there is often the peak.',
      },
      outputVoltageLeast: {
        label: 'Least output voltage',
        meaning: 'Below it the converter cannot hold its current.',
        source: 'The converter’s data sheet.',
      },
      outputVoltageMost: {
        label: 'Greatest output voltage',
        meaning: 'The highest voltage that can be set.',
        source: 'The converter’s data sheet.',
      },
      outputCurrent: {
        label: 'Output current, continuous',
        meaning: 'What it gives for hours; empty where only a peak is printed.',
        source: 'The converter’s data sheet.',
      },
      outputPeak: {
        label: 'Output current, peak',
        meaning: 'What it gives for moments; empty where nothing is printed.',
        source: 'Printed on the module: what is printed there is often the peak.',
      },
      outputPower: {
        label: 'Greatest output power',
        meaning: 'What it gives at most, cooled as it is.',
        source: 'The converter’s data sheet.',
      },
      efficiency: {
        label: 'Best efficiency',
        meaning:
          'At about half load; less at full and small loads, and by up to 1.5 points where the output is above 2.5 times the source’s voltage.',
        source: 'Judgement: published designs state 93 to 98 %; cheap modules are lower.',
      },
      standby: {
        label: 'Standby draw',
        meaning: 'Taken from the source as long as it runs.',
        source: 'From memory: 20 to 50 mA.',
      },
      headroom: {
        label: 'Headroom',
        meaning: 'Least difference of input and output of a converter that steps one way only.',
        source: 'Judgement; the data sheet may state it.',
      },
      mass: {
        label: 'Mass',
        meaning: 'Converter with its case.',
        source: 'A scale.',
      },
    },
    block: {
      voltage: {
        label: 'At rest',
        meaning: 'Of one block alone, an hour or more after it was charged or used.',
        source: 'A meter at its terminals.',
      },
      age: {
        label: 'Age',
        meaning: 'Since it was made, or bought new.',
        source: 'Its label, or the bill.',
      },
    },
    trial: {
      packCharge: {
        label: 'Bike’s pack at the start',
        meaning: 'When the charge was switched on.',
        source: 'Its display.',
      },
      sourceCharge: {
        label: 'Carried pack at the start',
        meaning: 'When the charge was switched on.',
        source: 'How it was charged before.',
      },
    },
    reading: {
      time: {
        label: 'After',
        meaning: 'Since the charge was switched on.',
        source: 'A watch.',
      },
      voltage: {
        label: 'Voltage',
        meaning: 'While the current flows.',
        source: 'The meter.',
      },
      current: {
        label: 'Current',
        meaning: 'At the same moment.',
        source: 'The meter.',
      },
      charge: {
        label: 'Bike’s pack',
        meaning: 'Its charge at the same moment.',
        source: 'Its display, which tells whole percents.',
      },
    },
    cable: {
      areaMm2: {
        label: 'Conductor',
        meaning: 'Cross-section of one conductor, mm²; a gauge such as AWG 14 is taken too.',
        source: 'Printed on the cable.',
      },
      length: {
        label: 'Cable, one way',
        meaning: 'Current flows there and back, which is counted.',
        source: 'A tape.',
      },
      temperature: {
        label: 'Temperature of the cable',
        meaning: `Warm copper resists more; above ${celsius(40)} it may carry less.`,
        source: 'A choice.',
      },
      connectorRating: {
        label: 'Connectors’ rating',
        meaning: 'Printed current of the weakest one; 60 % of it is used for hours.',
        source: 'Printed on the connector; common families are 15, 30 and 45 A.',
      },
      mass: {
        label: 'Mass',
        meaning: 'Cable with its plugs and fuse.',
        source: 'A scale.',
      },
    },
    socket: {
      free: {
        label: 'A socket is free for',
        meaning: 'Share of the stop; spread evenly over it.',
        source: 'A guess.',
      },
      mass: {
        label: 'Mass of the charger',
        meaning: 'If you carry it; 0 if it stands there.',
        source: 'A scale.',
      },
    },
  }
}
