namespace FuelHistory.Core.FaultModels;

/// <summary>Something that cars of this system have or do not have; a fact of the vehicle, asked once.</summary>
public sealed record FittedOption
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    /// <summary>The question as it is put to the owner.</summary>
    public required string Ask { get; init; }
    public required IReadOnlyList<OptionChoice> Choices { get; init; }
    public required string Source { get; init; }
}

public sealed record OptionChoice
{
    public required string Id { get; init; }
    public required string Title { get; init; }
    /// <summary>Components that such a car does not have.</summary>
    public IReadOnlyList<string> Absent { get; init; } = [];
}

public static class FittedOptions
{
    /// <summary>Components that a car does not have. Unknown options and choices say nothing: a later model may not have them any more.</summary>
    /// <param name="chosen">Option id to choice id; an option that is not there is not known.</param>
    public static IReadOnlySet<string> Absent(FaultModel model, IReadOnlyDictionary<string, string> chosen)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(chosen);
        return model.Options.Select(o => o.Choices.FirstOrDefault(c => c.Id == chosen.GetValueOrDefault(o.Id))).OfType<OptionChoice>()
            .SelectMany(c => c.Absent).ToHashSet();
    }

    /// <summary>The choice by which the car does not have the component; null where it may have it.</summary>
    public static (FittedOption Option, OptionChoice Choice)? Without(FaultModel model, IReadOnlyDictionary<string, string> chosen, string component)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(chosen);
        foreach (FittedOption option in model.Options)
        {
            if (option.Choices.FirstOrDefault(c => c.Id == chosen.GetValueOrDefault(option.Id)) is { } choice && choice.Absent.Contains(component))
            {
                return (option, choice);
            }
        }

        return null;
    }
}
