using FuelHistory.Client.Api;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>The forms that record what was found. Each shows only the fields that its subject has.</summary>
internal static class FindingForms
{
    // nothing is chosen beforehand: an outcome that nobody saw must not be saved by a slip
    public const string Choose = "(choose)";

    internal static readonly IReadOnlyList<NamedThing> Looks = ChoiceField.Words("seen: opened and looked at", "tested: tested, method not told");

    internal static readonly IReadOnlyList<NamedThing> Sure = ChoiceField.Words("yes: sure", "no: not sure");

    /// <summary>What a check showed: the fields follow from the kind of check.</summary>
    public static Form Check(FormData data, CheckView check, string? title = null, Save<NewFinding>? save = null)
    {
        Fields fields = new(data, save) { CheckId = check.Id, Quantity = check.Quantity, Unit = data.Unit(check.Quantity, check.Unit) };
        var unit = fields.Unit ?? check.Unit ?? "bar";
        if (check.Kind is "measurement")
        {
            fields.Reading = new("reading", "Reading", $"4.9 {unit}", reads: Reads.Measure(unit));
            fields.Outcome = new("outcome", "Or without a figure", "only where the figure is not known", [new NamedThing("", "(reading above)"), .. Outcomes(check)]);
        }
        if (check.Kind is "leak-down")
        {
            fields.Points = new("points", "Pressures", $"minutes since the stop and pressure: 10: 0.8 {unit}; 20: 0.5 {unit}");
            fields.Outcome = new("outcome", "Or without figures", "only where no figures were taken", [new NamedThing("", "(figures above)"), .. Outcomes(check)]);
        }
        if (check.Kind is "yes-no" or "outcomes") fields.Outcome = new("outcome", "Outcome", "", [new NamedThing("", Choose), .. Outcomes(check)]);
        if (fields.Outcome is not null) fields.Sure = new("sure", "Sure of it", "not sure counts for less", Sure);
        if (check.Kind is "measurement" or "leak-down") fields.Instrument = InstrumentField(data, check.Quantity);
        if (check.Covariate is { } covariate)
            fields.Conditions.Add((covariate.Id, data.Unit(covariate.Quantity, covariate.Unit), new($"conditions/{covariate.Id}", covariate.Title, $"20 {covariate.Unit}: no reading is judged without it", reads: Reads.Measure(data.Unit(covariate.Quantity, covariate.Unit)))));
        return fields.Form(title ?? $"{check.Title}: what did it show?");
    }

    /// <summary>What happens, when, and what follows; each of the last two may be left open.</summary>
    public static Form Event(FormData data, Save<NewFinding>? save = null)
    {
        PickField told = new("event", "What happens", "Enter shows the questions", Events.Of(data.Model),
            details: Events.Questions(data.Model));
        PickField when = new("when", "When", "left open: whenever", () => Events.When(data.Model, told.Id), many: true, after: told);
        Fields fields = new(data, save)
        {
            Event = told,
            When = when,
            Then = new("then", "And then", "left open: whatever follows", () => Events.Then(data.Model, told.Id, when.Ids), many: true, after: told),
            Outcome = new("outcome", "Answer", "", [new NamedThing("", Choose), .. Answers]),
            Sure = new("sure", "Sure of it", "not sure counts for less", Sure),
        };
        return fields.Form("Say what the car does, or does not do");
    }

    private static IReadOnlyList<NamedThing> Answers => ChoiceField.Words("present", "absent", "only: only then, and at no other time", "always: at each of these times");

    /// <summary>Something changed for a moment, and what the complaint then did.</summary>
    public static Form Trial(FormData data, string? trial, Save<NewFinding>? save = null)
    {
        Fields fields = new(data, save)
        {
            Trial = new("trial", "Trial", "one of the fault model's, or left open with the two fields below", data.Trials),
            Do = new("do", "What was done", "", Doings),
            Tried = new("tried", "To which part", "", data.Components),
            StandIn = new("stand-in", "The part put in was", "for another part in its place", StandIns),
            Outcome = new("outcome", "The trouble then", "", [new NamedThing("", Choose), .. Results]),
            Back = new("back", "With the old part back", "", Backs),
            Sure = new("sure", "Sure of it", "not sure counts for less", Sure),
        };
        Form form = fields.Form("Enter a trial: what was changed for a moment, and what came of it");
        return trial is null ? form : form.With("trial", trial);
    }

    private static IReadOnlyList<NamedThing> Results => ChoiceField.Words("ended: it ended", "better: better, not ended", "same: no change", "worse");

    private static IReadOnlyList<NamedThing> Backs => [new("", "(not tried)"), .. ChoiceField.Words("came-back: it came back", "stayed-away: it stayed away")];

    private static IReadOnlyList<NamedThing> Doings => [new("", "(as the trial says)"), .. ChoiceField.Words(
        "another: another one in its place", "bypass: fed or bypassed directly", "unplug: unplugged or blanked off", "touch: wiggled, struck, warmed or cooled", "extra-fuel: extra fuel")];

    private static IReadOnlyList<NamedThing> StandIns => ChoiceField.Words("used: from another car", "new", "new-unbranded: new, unbranded", "rebuilt", "unknown: not known");


    /// <summary>A judgement of one's own, in one's own words.</summary>
    public static Form Own(FormData data, Save<NewFinding>? save = null)
    {
        Fields fields = new(data, save) { Words = new("own", "In your words", "what you saw, heard or think"), For = For(data), Against = Against(data), Side = SideField(data), Strength = StrengthField };
        return fields.Form("Enter an observation of your own");
    }

    private static PickField For(FormData data) => new("for", "Speaks for the part", "it would be this part", data.Components);

    private static PickField Against(FormData data) => new("against", "Speaks against the part", "it is not this part", data.Components);

    private static PickField SideField(FormData data) => new("side", "Or a side of the car", "side=for or side=against", data.Model?.Sides ?? [], answers: ["for", "against"]);

    private static ChoiceField StrengthField => new("strength", "How strongly", "", ChoiceField.Words("clearly", "slightly", "strongly"));

    public static Form Seen(FormData data, Save<NewFinding>? save = null)
    {
        Fields fields = new(data, save)
        {
            Component = new("component", "Part", "the part that was opened and looked at", data.Components),
            Outcome = new("outcome", "It was", "", [new NamedThing("", Choose), .. ChoiceField.Words("good", "bad")]),
            Mode = new("mode", "Fault", "what was wrong with it, where it was bad", Modes(data)),
            How = new("how", "How", "tested: by what method nobody told; it counts for less", Looks),
            Sure = new("sure", "Sure of it", "no: you think so", Sure),
        };
        return fields.Form("Enter a part that was seen or tested");
    }

    /// <summary>Every field, for the plain command.</summary>
    public static Form Any(FormData data, Save<NewFinding>? save = null)
    {
        Fields fields = new(data, save)
        {
            Check = new("check", "Check", "", data.Checks),
            Event = new("event", "Event", "what the car does", Events.Of(data.Model)),
            When = new("when", "When", "facets, separated by commas", Events.When(data.Model), many: true),
            Then = new("then", "And then", "facets, separated by commas", Events.Then(data.Model), many: true),
            Trial = new("trial", "Trial", "", data.Trials),
            Do = new("do", "Done in a trial", "", Doings),
            Tried = new("tried", "Part tried", "", data.Components),
            StandIn = new("stand-in", "Part put in", "", StandIns),
            Back = new("back", "With the old part back", "", Backs),
            Words = new("own", "Own observation", "in your words"),
            For = For(data),
            Against = Against(data),
            Side = SideField(data),
            Strength = StrengthField,
            Component = new("component", "Part seen", "", data.Components),
            Mode = new("mode", "Fault", "component.mode", Modes(data)),
            How = new("how", "How", "of a part: seen or tested", [new NamedThing("", "(seen)"), .. Looks]),
            FreeOutcome = new("outcome", "Outcome", "present, absent, only, always, ended, better, same, worse, yes, no, below, within, above, hold, slow, fast, steep-then-flat, good, bad, or an outcome of the check"),
            Sure = new("sure", "Sure of it", "yes or no", Sure),
            Reading = new("reading", "Reading", "4.9 bar"),
            Points = new("points", "Pressures", "minutes and pressure: 10: 0.8 bar; 20: 0.5 bar"),
            Instrument = InstrumentField(data, null),
            FreeConditions = new("conditions", "Conditions", "ambient-temperature=20 °C; ..."),
        };
        return fields.Form("Enter a finding");
    }

    private static PickField InstrumentField(FormData data, string? quantity) =>
        new("instrument", "Measured with", "a gauge with its span and class tells how far to trust the figure",
            [.. data.Instruments.Where(each => quantity is null || each.Quantity == quantity).Select(each => new NamedThing(each.Entry.Id, each.Name))]);

    /// <summary>What a check can show without figures.</summary>
    public static IReadOnlyList<NamedThing> Outcomes(CheckView check) => check.Kind switch
    {
        _ when check.Outcomes.Count > 0 => check.Outcomes,
        "measurement" => ChoiceField.Words("below: below the limits", "within: within limits", "above: above the limits"),
        "leak-down" => ChoiceField.Words("hold: it held", "slow: it fell slowly", "fast: it fell fast", "steep-then-flat: it dropped at once, then stayed"),
        _ => ChoiceField.Words("yes", "no"),
    };

    internal static List<NamedThing> Modes(FormData data) =>
        [.. (data.Model?.Components ?? []).SelectMany(part => part.Modes.Select(mode => new NamedThing($"{part.Id}.{mode.Id}", $"{part.Title}: {mode.Title}")))];

    /// <summary>Lists name a mode component.mode; the host takes the component apart from it.</summary>
    internal static string? ModeOnly(string? id) => id?[(id.IndexOf('.', StringComparison.Ordinal) + 1)..];

    /// <summary>The fields in use, and the body made from them.</summary>
    private sealed class Fields(FormData data, Save<NewFinding>? save = null)
    {
        private readonly TypedField _at = new("at", "Day and time", "now, 15:30, or 14.3.2026 15:30", "now", Reads.Moment(data.Clock));
        private readonly ChoiceField _showed = new("showed", "Complaint showed", "whether an intermittent complaint showed that day", ChoiceField.Words("unknown: not known", "yes", "no"));
        private readonly TypedField _session = new("session", "Session", "a name for findings taken together; empty: the day"), _note = VehicleForms.Note();

        public string? CheckId { get; init; }
        public string? Quantity { get; init; }
        public string? Unit { get; init; }
        public PickField? Check { get; init; }
        public PickField? Event { get; init; }
        public PickField? When { get; init; }
        public PickField? Then { get; init; }
        public PickField? Trial { get; init; }
        public ChoiceField? Do { get; init; }
        public PickField? Tried { get; init; }
        public ChoiceField? StandIn { get; init; }
        public ChoiceField? Back { get; init; }
        public TypedField? Words { get; init; }
        public PickField? For { get; init; }
        public PickField? Against { get; init; }
        public PickField? Side { get; init; }
        public ChoiceField? Strength { get; init; }
        public PickField? Component { get; init; }
        public PickField? Mode { get; init; }
        public ChoiceField? Outcome { get; set; }
        public TypedField? FreeOutcome { get; init; }
        public ChoiceField? Sure { get; set; }
        public ChoiceField? How { get; init; }
        public TypedField? Reading { get; set; }
        public TypedField? Points { get; set; }
        public PickField? Instrument { get; set; }
        public TypedField? FreeConditions { get; init; }
        public List<(string Id, string? Unit, TypedField Field)> Conditions { get; } = [];

        public Form Form(string title)
        {
            // of a measurement the word stands last: mostly there is a figure
            var figure = Reading is not null;
            Field?[] told = [Check, Event, When, Then, Trial, Do, Tried, StandIn, Words, For, Against, Side, Strength, Component];
            Field?[] found = [Reading, Points, figure ? null : Outcome, FreeOutcome, Back, Mode, How, figure ? null : Sure, Instrument, .. Conditions.Select(each => each.Field), FreeConditions];
            Field?[] all = [.. told, .. found, figure ? Outcome : null, figure ? Sure : null, _at, _showed, _session, _note];
            return new(title, [.. all.OfType<Field>()], Fill);
        }

        private Filled Fill(bool confirmed)
        {
            Draft draft = new(data.Clock);
            var unit = Unit ?? UnitOf(Check?.Id);
            NewFinding body = new(draft.Moment(_at) ?? data.Clock.GetLocalNow(), Event?.Id, CheckId ?? Check?.Id, Component?.Id, ModeOnly(Mode?.Id),
                OutcomeText(), Sure?.Value is not "no", Reading is null ? null : draft.Measure(Reading, unit), Points is null ? null : draft.Points(Points, unit),
                Instrument?.Id, Covariates(draft), _session.Value, _showed.Value, confirmed, _note.Value, Facets(When), Facets(Then), TrialOf(), OwnOf(), string.IsNullOrEmpty(How?.Value) ? null : How.Value);
            return new(draft.Faults, ct => save?.Invoke(body, ct) ?? VehicleForms.Saved(Send(body, ct), finding => new($"Entered: {finding.Text}", finding.Entry.Id)));
        }

        private Task<Answer<Finding>> Send(NewFinding body, CancellationToken ct) => data.Calls.Ask(api => data.Complaint is { } complaint
            ? api.AddComplaintFinding(complaint.Entry.Id, body, ct)
            : api.AddVehicleFinding(data.Vehicle!.Entry.Id, body, ct));

        private static IReadOnlyList<string>? Facets(PickField? field) => field?.Ids is { Count: > 0 } ids ? ids : null;

        private TrialDone? TrialOf() => Trial?.Id is null && string.IsNullOrEmpty(Do?.Value) ? null
            : new TrialDone(Trial?.Id, Given(Do), Tried?.Id, Given(StandIn) ?? "used", Given(Back));

        private static string? Given(ChoiceField? field) => string.IsNullOrEmpty(field?.Value) ? null : field.Value;

        private OwnObservation? OwnOf()
        {
            if (Words?.Value is not { } words) return null;
            var side = Side?.Picked is { Count: > 0 } picked ? picked[0] : default;
            var against = Against?.Id is not null || side.Answer is "against";
            return new OwnObservation(against ? "against" : "for", Strength?.Value ?? "clearly", words, For?.Id ?? Against?.Id, side.Id);
        }

        private string? OutcomeText()
        {
            var text = FreeOutcome is not null ? FreeOutcome.Value : Outcome?.Value;
            return string.IsNullOrEmpty(text) ? null : text;
        }

        private string? UnitOf(string? checkId)
        {
            var check = data.Model?.Checks.FirstOrDefault(each => each.Id == checkId);
            return check is null ? null : data.Unit(check.Quantity, check.Unit);
        }

        private Dictionary<string, Measured>? Covariates(Draft draft)
        {
            Dictionary<string, Measured> found = [];
            foreach (var (id, unit, field) in Conditions)
                if (draft.Measure(field, unit) is { } value) found[id] = value;
            if (FreeConditions is not null)
                foreach (var (id, value) in draft.Conditions(FreeConditions)) found[id] = value;
            return found.Count == 0 ? null : found;
        }
    }
}
