namespace FuelHistory.Contracts;

/// <param name="Own">The user's own, from the folder beside the database.</param>
public sealed record FaultModelHead(string Id, string Title, string Revision, bool Own = false);

/// <summary>A fault model of the user's own that cannot be used until its file is mended and the host started again.</summary>
/// <param name="Id">What it calls itself; null where that cannot be read, or is the id of another.</param>
/// <param name="Reasons">Each with file and line.</param>
public sealed record RefusedFaultModel(string? Id, string File, IReadOnlyList<string> Reasons);

/// <summary>A fault model as a client needs it: what can be asked, done and named. The numbers stay in the file.</summary>
public sealed record FaultModelView(
    string Id,
    string Title,
    string Revision,
    string About,
    IReadOnlyList<ComponentView> Components,
    IReadOnlyList<EventView> Events,
    IReadOnlyList<CheckView> Checks,
    IReadOnlyList<NamedThing> Tools,
    IReadOnlyList<NamedThing> Incidents,
    IReadOnlyList<SourceView> Sources,
    IReadOnlyList<TrialView> Trials,
    IReadOnlyList<NamedThing> Sides,
    IReadOnlyList<NamedThing> Onsets)
{
    /// <summary>What cars of this system have or do not have.</summary>
    public IReadOnlyList<OptionView> Options { get; init; } = [];
}

/// <summary>One fact of a vehicle, with the choices that NewVehicle.Options may name.</summary>
public sealed record OptionView(string Id, string Title, string Ask, IReadOnlyList<NamedThing> Choices);

public sealed record NamedThing(string Id, string Title);

/// <summary>Kind: published, excerpt, common-practice, judgement (several writers, apart) or memory.</summary>
public sealed record SourceView(string Id, string Kind, string Cite);

public sealed record ComponentView(string Id, string Title, bool Instrument, IReadOnlyList<NamedThing> Modes, IReadOnlyList<string> Actions);

/// <summary>What a driver notices. Kind: starting, idling, driving, stopping or other. When, Then: facets that the event has, in the order in
/// which they are shown; Cells: which of them go together.</summary>
public sealed record EventView(
    string Id,
    string Title,
    string Ask,
    string Kind,
    IReadOnlyList<NamedThing> When,
    IReadOnlyList<NamedThing> Then,
    IReadOnlyList<EventCellView> Cells);

public sealed record EventCellView(string Id, string? When, string? Then, string Title, string Ask);

/// <summary>Something that may be changed for a moment. Do: another, bypass, unplug, touch or extra-fuel.</summary>
public sealed record TrialView(
    string Id,
    string Title,
    string Do,
    string? Component,
    double Minutes,
    double SetupMinutes,
    IReadOnlyList<string> Tools,
    string Hazard,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<string> Steps,
    string Source);

/// <summary>Kind: measurement, leak-down, yes-no or outcomes. Limits as the model has them, in words and figures, with their source.</summary>
public sealed record CheckView(
    string Id,
    string Title,
    string Kind,
    string? Quantity,
    string? Unit,
    IReadOnlyList<NamedThing> Outcomes,
    double Minutes,
    string? Setup,
    double SetupMinutes,
    IReadOnlyList<string> Tools,
    string Hazard,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<string> Steps,
    string? Limits,
    string Source,
    CovariateView? Covariate);

public sealed record CovariateView(string Id, string Title, string Quantity, string Unit);

/// <summary>LabourRate per hour in Currency. ToolsAtHand: tool ids; null means all. Units: preferred unit by quantity
/// (pressure, temperature, distance). Figures: how chances are said: words, percent or odds.</summary>
public sealed record Settings(
    string Currency,
    decimal LabourRate,
    IReadOnlyList<string>? ToolsAtHand,
    IReadOnlyDictionary<string, string> Units,
    string Locale,
    string Figures = PlainFigures.Words);

public sealed record Health(string Status, IReadOnlyDictionary<string, string> Details);
