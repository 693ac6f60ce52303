/** Publications that fields, formulas and the documentation name: the one place where each is written out. */
export const citations = {
  martin: 'Martin et al. 1998, J. Appl. Biomech. 14:276-291',
  tengattini: 'Tengattini and Bigazzi 2018, J. Sports Sci. 36:2383-2391',
  clark: 'Clark et al. 2019, J. Appl. Physiol. 127:726',
  moseley: 'Moseley and Jeukendrup 2001, MSSE 33:621-627',
  thomas: 'Thomas, Erdman and Burke 2016, MSSE 48:543-568',
  bogacki: 'Bogacki and Shampine 1989, Appl. Math. Lett. 2:321-325',
  sobol: 'Joe and Kuo 2008, Owen 1997',
  effects: 'Owen 2014 and Goda 2021',
  shapley: 'Shapley 1953, “A value for n-person games”',
  everett: 'Everett 1963, Operations Research 11:399–417',
  fox: 'Fox 1966, Operations Research 14:210–216',
  doucet: 'Doucet, Godsill and Andrieu 2000, Stat. Comput. 10:197-208',
} as const
