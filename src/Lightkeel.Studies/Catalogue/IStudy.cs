using System.Text.Json.Serialization.Metadata;

namespace Lightkeel.Studies.Catalogue;

/// <summary>A question that an engineer asks, as front ends see it.</summary>
/// <remarks>Implemented through <see cref="Study{TInput, TResult}"/>. Stateless: one instance serves many runs at once.</remarks>
public interface IStudy
{
    /// <summary>Name, title, help, sources.</summary>
    StudyInfo Info { get; }

    /// <summary>Its options and arguments, in the order they are shown; positional ones in their order.</summary>
    IReadOnlyList<StudyOption> Options { get; }

    /// <summary>How its result record is written as JSON: the keys and their types.</summary>
    JsonTypeInfo ResultShape { get; }

    /// <summary>The same for one request: a study whose options decide between several records says which one it will be.</summary>
    /// <param name="request">Values of the options; may lack some when they are wrong.</param>
    JsonTypeInfo ResultShapeOf(StudyRequest request) => ResultShape;

    /// <summary>Answers the question.</summary>
    /// <param name="request">Values of the options.</param>
    /// <param name="context">Seed, accuracy, threads, progress, cancellation.</param>
    /// <exception cref="InputRefusedException">The input is wrong.</exception>
    /// <exception cref="Physics.Pressure.PressureUnavailableException">No force can be vouched for.</exception>
    /// <exception cref="OperationCanceledException">It was asked to stop before anything was finished.</exception>
    StudyOutcome Run(StudyRequest request, StudyContext context);
}
