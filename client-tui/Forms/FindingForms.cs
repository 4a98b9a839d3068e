using FuelHistory.Client.Api;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>The forms that record what was found. Each shows only the fields that its subject has.</summary>
internal static class FindingForms
{
    // nothing is chosen beforehand: an outcome that nobody saw must not be saved by a slip
    public const string Choose = "(choose)";

    private static readonly IReadOnlyList<NamedThing> Sure = ChoiceField.Words("yes: sure", "no: not sure");

    /// <summary>What a check showed: the fields follow from the kind of check.</summary>
    public static Form Check(FormData data, CheckView check, string? title = null, Save<NewFinding>? save = null)
    {
        Fields fields = new(data, save) { CheckId = check.Id, Quantity = check.Quantity, Unit = data.Unit(check.Quantity, check.Unit) };
        var unit = fields.Unit ?? check.Unit ?? "bar";
        if (check.Kind is "measurement") fields.Reading = new("reading", "Reading", $"4.9 {unit}", reads: Reads.Measure(unit));
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

    public static Form Symptom(FormData data, Save<NewFinding>? save = null)
    {
        Fields fields = new(data, save)
        {
            Symptom = new("symptom", "Symptom", "Enter shows the questions", ComplaintForms.Symptoms(data), details: ComplaintForms.Questions(data)),
            Outcome = new("outcome", "Answer", "", [new NamedThing("", Choose), .. ChoiceField.Words("present", "absent")]),
            Sure = new("sure", "Sure of it", "not sure counts for less", Sure),
        };
        return fields.Form("Answer a question about a symptom");
    }

    public static Form Seen(FormData data, Save<NewFinding>? save = null)
    {
        Fields fields = new(data, save)
        {
            Component = new("component", "Part", "the part that was opened and looked at", data.Components),
            Outcome = new("outcome", "It was", "", [new NamedThing("", Choose), .. ChoiceField.Words("good", "bad")]),
            Mode = new("mode", "Fault", "what was wrong with it, where it was bad", Modes(data)),
        };
        return fields.Form("Enter a part that was seen");
    }

    /// <summary>Every field, for the plain command.</summary>
    public static Form Any(FormData data, Save<NewFinding>? save = null)
    {
        Fields fields = new(data, save)
        {
            Check = new("check", "Check", "", data.Checks),
            Symptom = new("symptom", "Symptom", "", ComplaintForms.Symptoms(data)),
            Component = new("component", "Part seen", "", data.Components),
            Mode = new("mode", "Fault", "component.mode", Modes(data)),
            FreeOutcome = new("outcome", "Outcome", "present, absent, yes, no, hold, slow, fast, steep-then-flat, good, bad, or an outcome of the check"),
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

    /// <summary>What a check can show without figures; nothing for a measurement.</summary>
    public static IReadOnlyList<NamedThing> Outcomes(CheckView check) => check.Kind switch
    {
        "measurement" => [],
        _ when check.Outcomes.Count > 0 => check.Outcomes,
        "leak-down" => ChoiceField.Words("hold: it held", "slow: it fell slowly", "fast: it fell fast", "steep-then-flat: it dropped at once, then stayed"),
        _ => ChoiceField.Words("yes", "no"),
    };

    private static List<NamedThing> Modes(FormData data) =>
        [.. (data.Model?.Components ?? []).SelectMany(part => part.Modes.Select(mode => new NamedThing($"{part.Id}.{mode.Id}", $"{part.Title}: {mode.Title}")))];

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
        public PickField? Symptom { get; init; }
        public PickField? Component { get; init; }
        public PickField? Mode { get; init; }
        public ChoiceField? Outcome { get; set; }
        public TypedField? FreeOutcome { get; init; }
        public ChoiceField? Sure { get; set; }
        public TypedField? Reading { get; set; }
        public TypedField? Points { get; set; }
        public PickField? Instrument { get; set; }
        public TypedField? FreeConditions { get; init; }
        public List<(string Id, string? Unit, TypedField Field)> Conditions { get; } = [];

        public Form Form(string title)
        {
            Field?[] all = [Check, Symptom, Component, Reading, Points, Outcome, FreeOutcome, Mode, Sure, Instrument, .. Conditions.Select(each => each.Field), FreeConditions, _at, _showed, _session, _note];
            return new(title, [.. all.OfType<Field>()], Fill);
        }

        private Filled Fill(bool confirmed)
        {
            Draft draft = new(data.Clock);
            var unit = Unit ?? UnitOf(Check?.Id);
            NewFinding body = new(draft.Moment(_at) ?? data.Clock.GetLocalNow(), Symptom?.Id, CheckId ?? Check?.Id, Component?.Id, ModeOnly(Mode?.Id),
                OutcomeText(), Sure?.Value is not "no", Reading is null ? null : draft.Measure(Reading, unit), Points is null ? null : draft.Points(Points, unit),
                Instrument?.Id, Covariates(draft), _session.Value, _showed.Value, confirmed, _note.Value);
            return new(draft.Faults, ct => save?.Invoke(body, ct) ?? VehicleForms.Saved(Send(body, ct), finding => new($"Entered: {finding.Text}", finding.Entry.Id)));
        }

        private Task<Answer<Finding>> Send(NewFinding body, CancellationToken ct) => data.Calls.Ask(api => data.Complaint is { } complaint
            ? api.AddComplaintFinding(complaint.Entry.Id, body, ct)
            : api.AddVehicleFinding(data.Vehicle!.Entry.Id, body, ct));

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

        private static string? ModeOnly(string? id) => id?[(id.IndexOf('.', StringComparison.Ordinal) + 1)..];
    }
}
