package source

// register holds every publication, sorted by key. Statuses are as far as known when written.
var register = []Publication{
	{
		Key: "au-adr", Kind: Regulation, Number: "Australian Design Rules", Edition: "third edition",
		Title: "Vehicle standards made under the federal road vehicle standards law", Language: "en",
		URL: "https://www.legislation.gov.au", Status: InForce,
	},
	{
		Key: "au-licence-classes", Kind: Guidance, Title: "Australia: national driver licence classes",
		Language: "en", Status: Unchecked,
	},
	{
		Key: "au-vsb14", Kind: Guidance, Number: "VSB 14", Edition: "edition not checked",
		Title: "National code of practice for light vehicle construction and modification", Language: "en",
		Status: Unchecked, Note: "section on motor homes: code LH11",
	},
	{
		Key: "body-builder", Kind: Guidance, Title: "Body-builder guidelines of the base vehicle",
		Language: "en", Status: Unchecked,
		Note: "each base vehicle has its own; the workshop uses the one that belongs to its van",
	},
	{
		Key: "en-1646-1-2004", Kind: Standard, Number: "EN 1646-1", Edition: "2004 with amendment 1 of 2008",
		Title: "Leisure accommodation vehicles. Motor caravans. Habitation requirements", Language: "en",
		Status: Superseded, SupersededBy: "en-1646-1-2012", Note: "known from pages that quote it",
	},
	{
		Key: "en-1646-1-2012", Kind: Standard, Number: "EN 1646-1", Edition: "2012",
		Title: "Leisure accommodation vehicles. Motor caravans. Habitation requirements relating to health and safety", Language: "en",
		Status: Unchecked, Note: "known from its scope text and from pages that quote it; there is a 2018 edition",
	},
	{
		Key: "en-1646-2-2004", Kind: Standard, Number: "EN 1646-2", Edition: "older editions, before 2012",
		Title: "Leisure accommodation vehicles. Motor caravans. User payloads", Language: "en",
		Status: Superseded, Note: "known from a legal publisher's summary; the edition it quotes is not named there",
	},
	{
		Key: "eu-1230-2012", Kind: Regulation, Number: "Regulation (EU) No 1230/2012", Edition: "2012",
		Title: "Type-approval requirements for masses and dimensions of motor vehicles and their trailers", Language: "en",
		URL: "https://www.legislation.gov.uk/eur/2012/1230", Status: Repealed, SupersededBy: "eu-2021-535",
		Note: "repealed in the EU in July 2022; Great Britain keeps its own amended version",
	},
	{
		Key: "eu-2006-126", Kind: Regulation, Number: "Directive 2006/126/EC", Edition: "2006",
		Title: "Driving licences", Language: "en",
		URL: "https://eur-lex.europa.eu/eli/dir/2006/126/oj", Status: InForce,
		Note: "to be repealed by Directive (EU) 2025/2205 when that applies",
	},
	{
		Key: "eu-2021-535", Kind: Regulation, Number: "Implementing Regulation (EU) 2021/535", Edition: "2021",
		Title:    "Uniform procedures and technical specifications for the type-approval of vehicles as regards general construction and safety",
		Language: "en", URL: "https://eur-lex.europa.eu/eli/reg_impl/2021/535/oj", Status: InForce,
		Note: "masses and dimensions are in Annex XIII",
	},
	{
		Key: "eu-2025-2205", Kind: Regulation, Number: "Directive (EU) 2025/2205", Edition: "2025",
		Title: "Driving licences", Language: "en",
		URL: "https://eur-lex.europa.eu/eli/dir/2025/2205/oj", Status: Adopted,
		Note: "of 22 October 2025, Official Journal of 5 November 2025; national law follows",
	},
	{
		Key: "fitting-instruction", Kind: DataSheet, Title: "Fitting instruction of the appliance or part",
		Language: "en", Status: Unchecked, Note: "each part has its own; the build names document and page",
	},
	{
		Key: "geometry", Kind: Handbook, Title: "Plane and solid geometry: separating axes, lofts of straight lines",
		Language: "en", Status: InForce, Note: "text-book principle; the method is in docs/methods/fit.md",
	},
	{
		Key: "iso-4000-1", Kind: Standard, Number: "ISO 4000-1", Edition: "edition not checked",
		Title: "Passenger car tyres and rims. Part 1: tyres (metric series)", Language: "en",
		Status: Unchecked, Note: "load index; the same series is used by the tyre and rim organisations",
	},
	{
		Key: "nhtsa-ssf", Kind: Regulation, Edition: "2001",
		Title:    "United States highway safety administration: rollover resistance, static stability factor",
		Language: "en", URL: "https://www.federalregister.gov", Status: Unchecked,
		Note: "consumer information rulemaking; the star bands are not used",
	},
	{
		Key: "nl-camper-tax", Kind: Guidance, Number: "Netherlands tax rule for campers", Edition: "unchecked",
		Title: "Dimensions asked of a camper for the reduced vehicle tax", Language: "nl", Status: Unchecked, Note: "known from pages that quote it",
	},
	{
		Key: "nz-dimensions-mass-2016", Kind: Regulation, Number: "Land Transport Rule 41001/2016", Edition: "2016",
		Title: "Vehicle Dimensions and Mass 2016", Language: "en", Status: Unchecked,
	},
	{
		Key: "nz-driver-licensing-1999", Kind: Regulation, Number: "Land Transport Rule 91001", Edition: "1999, as amended",
		Title: "Land Transport (Driver Licensing) Rule 1999", Language: "en", Status: Unchecked,
	},
	{
		Key: "plate", Kind: DataSheet, Title: "Statutory plate and papers of the base vehicle",
		Language: "en", Status: Unchecked, Note: "each van has its own",
	},
	{
		Key: "practice", Kind: Practice, Title: "Common practice of the trade, no publication",
		Language: "en", Status: InForce,
	},
	{
		Key: "statics", Kind: Handbook, Title: "Statics of a rigid body: balance of forces and of moments",
		Language: "en", Status: InForce, Note: "text-book principle, found in every book on mechanics",
	},
	{
		Key: "uk-cu-1986", Kind: Regulation, Number: "SI 1986/1078", Edition: "1986, as amended",
		Title: "The Road Vehicles (Construction and Use) Regulations 1986", Language: "en",
		URL: "https://www.legislation.gov.uk/uksi/1986/1078", Status: InForce,
	},
	{
		Key: "uk-hmrc-vit51200", Kind: Guidance, Number: "VIT51200", Edition: "HMRC internal manual",
		Title: "VAT input tax: motor caravans", Language: "en", URL: "https://www.gov.uk/hmrc-internal-manuals/vat-input-tax/vit51200", Status: InForce,
	},
	{
		Key: "uk-licensing-guidance", Kind: Guidance, Edition: "June 2025",
		Title: "Great Britain: guidance on driving licence categories", Language: "en",
		URL: "https://www.gov.uk/driving-licence-categories", Status: InForce,
	},
	{
		Key: "uk-rtra-1984", Kind: Regulation, Number: "Road Traffic Regulation Act 1984", Edition: "1984, as amended",
		Title: "Road Traffic Regulation Act 1984", Language: "en",
		URL: "https://www.legislation.gov.uk/ukpga/1984/27", Status: InForce,
	},
	{
		Key: "us-fmvss-110", Kind: Regulation, Number: "49 CFR 571.110", Edition: "as amended by 72 FR 68442, 4 December 2007",
		Title:    "Federal motor vehicle safety standard 110: tire selection and rims, motor home load carrying capacity information",
		Language: "en", URL: "https://www.ecfr.gov/current/title-49/section-571.110", Status: InForce,
		Note: "for vehicles of at most 10 000 lb; 571.120 holds the like for heavier ones",
	},
	{
		Key: "vehicle-dynamics", Kind: Handbook, Title: "Fundamentals of Vehicle Dynamics", Edition: "edition not checked",
		Language: "en", Status: Unchecked, Note: "known from memory only",
	},
}
