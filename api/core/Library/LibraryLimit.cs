using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Library;

/// <summary>What a document (or the authors) says that a car should read, with the document and the conditions it is given for.</summary>
public sealed record LibraryLimit
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    public required string Quantity { get; init; }
    /// <summary>Ids of the fault models whose cars it is for.</summary>
    public required IReadOnlyList<string> Systems { get; init; }
    /// <summary>Ids of the checks that read just this; may be empty.</summary>
    public required IReadOnlyList<string> Checks { get; init; }
    public required Given Given { get; init; }
    /// <summary>Where it is measured.</summary>
    public string? Point { get; init; }
    public IReadOnlyList<string> SetUp { get; init; } = [];
    /// <summary>Figures and unit as the document has them, as far as recorded.</summary>
    public required string Printed { get; init; }
    /// <summary>Of all figures that follow; null where there are none.</summary>
    public string? Unit { get; init; }
    /// <summary>Volumes only: the time in which the volume comes.</summary>
    public double? Seconds { get; init; }
    public double? Low { get; init; }
    public double? High { get; init; }
    /// <summary>Leak-down: the pressure at the stop that the points go with.</summary>
    public double? HoldFrom { get; init; }
    /// <summary>Some of the figures are the authors' own, such as a tolerance that is not printed.</summary>
    public bool PartlyOurs { get; init; }
    /// <summary>What the points' At is.</summary>
    public Covariate? Over { get; init; }
    public IReadOnlyList<LimitPoint> Points { get; init; } = [];
    /// <summary>How the figures follow from the printed ones.</summary>
    public string? Worked { get; init; }
    /// <summary>What is wrong in print, and why the figures are taken as they are.</summary>
    public string? Misprint { get; init; }
    public string? Remark { get; init; }
    /// <summary>Why no reading may be judged by it (a bound for safety, no figure); null where one may.</summary>
    public string? NotForJudging { get; init; }
    /// <summary>Why no check of its systems, or of one of them, reads just this; null where one does.</summary>
    public string? NoCheck { get; init; }
}

/// <summary>For which car, and where that stands.</summary>
public sealed record Given
{
    public string? Make { get; init; }
    /// <summary>One or more names, separated by commas.</summary>
    public string? Model { get; init; }
    public IReadOnlyList<string> Engines { get; init; } = [];
    /// <summary>Years of the cars, or of the page where it names one; null: not stated.</summary>
    public int? From { get; init; }
    public int? To { get; init; }
    /// <summary>A key of the sources.</summary>
    public required string Source { get; init; }
}

internal sealed record LimitFile(string Schema, IReadOnlyList<LibraryLimit> Limits);

internal sealed record SourceFile(string Schema, IReadOnlyDictionary<string, Source> Sources);
